import type { Learner } from '../models/learner.ts';

/** One place writes at a time. */
export function OtherTab(props: { readonly learner: Learner }) {
  const { learner } = props;
  if (learner.writing.value) return null;
  return (
    <div class="note warn stack" role="alert">
      <p>Recency is open in another tab or window. Answers are written from one place at a time.</p>
      <button type="button" class="main" onClick={() => void learner.takeOver()}>
        Continue here
      </button>
    </div>
  );
}
