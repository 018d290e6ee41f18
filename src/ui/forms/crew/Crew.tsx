import type { CrewShown, DealtDetail, DealtRow } from '../../../model/form.ts';
import { Posts } from '../../parts/Posts.tsx';
import { Text } from '../../parts/Text.tsx';
import { Intro } from '../answer/Intro.tsx';
import { WasAsked } from '../answer/WasAsked.tsx';
import type { QuestionProps, UnsureProps, VerdictProps } from '../contract.ts';
import { Done } from '../run/Done.tsx';
import { Deal } from './Deal.tsx';
import { Dealt } from './Dealt.tsx';

const ASK = 'Who does what?';

export function CrewQuestion(props: QuestionProps<CrewShown>) {
  const { shown, draft, disabled, onDraft } = props;
  return (
    <>
      <Intro title={shown.title} scene={shown.scene} />
      {shown.before.length > 0 && (
        <ul class="run">
          <Done texts={shown.before} />
        </ul>
      )}
      <p>
        <strong>{ASK}</strong>
      </p>
      <Deal
        rows={shown.rows}
        seats={shown.seats}
        deal={draft.deal ?? {}}
        disabled={disabled}
        onDeal={(deal) => onDraft({ ...draft, deal })}
      />
    </>
  );
}

export function CrewVerdict(props: VerdictProps<CrewShown>) {
  const { shown, told } = props;
  const detail = told.marked.detail as DealtDetail;
  const source = onlySource(detail.rows);
  const rows = source === undefined ? detail.rows : detail.rows.map(withoutSource);
  return (
    <>
      <Dealt detail={{ ...detail, rows, ...(source !== undefined && { source }) }} told={told.given === null} />
      <WasAsked {...shown} ask={ASK}>
        <Posts labels={shown.seats.map(({ text }) => text)} />
      </WasAsked>
    </>
  );
}

/** Where all that name one name the same it is said once, below. */
const onlySource = (rows: readonly DealtRow[]): string | undefined => {
  const [one, ...more] = new Set(rows.flatMap(({ source }) => source ?? []));
  return more.length === 0 ? one : undefined;
};
const withoutSource = ({ source: _, ...row }: DealtRow): DealtRow => row;

/** The rows as they were dealt: which of them are not sure? */
export function UnsureRows(props: UnsureProps<CrewShown>) {
  const { shown, draft, value, onChange } = props;
  const seatOf = (row: string) => shown.seats.find(({ id }) => id === draft.deal?.[row])?.text ?? '';
  return (
    <fieldset>
      <legend class="small soft">Tick them, or skip this with “All of them”.</legend>
      {shown.rows.map(({ id, text }) => (
        <label class="pick" key={id}>
          <input
            type="checkbox"
            checked={value.includes(id)}
            onChange={(event) =>
              onChange(event.currentTarget.checked ? [...value, id] : value.filter((one) => one !== id))
            }
          />
          <span>
            <Text text={text} />
            <span class="soft">
              : <Text text={seatOf(id)} />
            </span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
