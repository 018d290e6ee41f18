import type { DealtDetail, DifferenceShown } from '../../../model/form.ts';
import { Intro } from '../answer/Intro.tsx';
import { Numbers } from '../answer/Numbers.tsx';
import { WasAsked } from '../answer/WasAsked.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';
import { Deal } from '../crew/Deal.tsx';
import { Dealt } from '../crew/Dealt.tsx';

export function DifferenceQuestion(props: QuestionProps<DifferenceShown>) {
  const { shown, draft, disabled, onDraft } = props;
  return (
    <>
      <Intro title={shown.ask} scene={shown.scene} />
      {shown.fields.length > 0 ? (
        <Numbers
          fields={shown.fields}
          typed={draft.typed ?? []}
          disabled={disabled}
          onTyped={(typed) => onDraft({ ...draft, typed })}
        />
      ) : (
        <Deal
          rows={shown.rows}
          seats={shown.seats}
          deal={draft.deal ?? {}}
          disabled={disabled}
          onDeal={(deal) => onDraft({ ...draft, deal })}
        />
      )}
    </>
  );
}

export function DifferenceVerdict(props: VerdictProps<DifferenceShown>) {
  const { shown, told } = props;
  return (
    <>
      <Dealt detail={told.marked.detail as DealtDetail} told={told.given === null} />
      <WasAsked {...shown} />
    </>
  );
}
