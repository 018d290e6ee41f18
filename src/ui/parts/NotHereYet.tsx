import { stillLacking } from '../models/lacking.ts';
import type { Learner } from '../models/learner.ts';

/** Assigned, and nobody brought it: told until it is here, since what is practised meanwhile may be out of date. */
export function NotHereYet(props: { readonly learner: Learner }) {
  const { learner } = props;
  return (
    <>
      {stillLacking(learner).map(({ id, title, version }) => {
        const now = learner.practised.value.find(({ stored }) => stored.id === id)?.stored.version;
        return (
          <p class="note warn" key={id}>
            Assigned, but not on this device: {title}, version {version}.{' '}
            {now !== undefined && `You practise version ${now}. `}Ask your instructor for its file and open it under
            Decks.
          </p>
        );
      })}
    </>
  );
}
