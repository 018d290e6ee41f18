import type { NextShown } from '../../../model/form.ts';
import { Pick } from '../answer/Pick.tsx';
import type { QuestionProps } from '../contract.ts';
import { Done } from '../run/Done.tsx';

/** The last steps done, and below them what may come next. */
export function NextQuestion(props: QuestionProps<NextShown>) {
  const { before } = props.shown;
  return (
    <Pick {...props}>
      {before.length > 0 && (
        <ul class="run">
          <Done texts={before} />
        </ul>
      )}
    </Pick>
  );
}
