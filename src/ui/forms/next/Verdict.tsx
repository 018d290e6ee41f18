import type { NextShown } from '../../../model/form.ts';
import { PickVerdict } from '../answer/Pick.tsx';
import type { VerdictProps } from '../contract.ts';

/** What was chosen, and why it does not come next; the step that does, with all that was hidden; then what was asked. */
export function NextVerdict(props: VerdictProps<NextShown>) {
  const { before } = props.shown;
  return <PickVerdict {...props} right={before.length > 0 ? 'What comes next is' : 'What comes first is'} />;
}
