import type {
  AnswerDetail,
  DealtDetail,
  DealtRow,
  DifferenceGiven,
  DifferenceShown,
  LimitGiven,
  Marked,
} from '../../model/form.ts';
import type { ItemKey, Mark } from '../../model/item.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { markCrew } from '../crew/mark.ts';
import { markLimit } from '../limit/mark.ts';
import { compact } from '../look-up.ts';
import { askedDifference, type CrewPair, type LimitPair } from './asked.ts';
import { type Pair, pairOf } from './pairs.ts';

interface Answered {
  readonly resolved: Resolved;
  readonly question: Question;
  readonly pair: Pair;
  readonly shown: DifferenceShown;
  readonly given: DifferenceGiven | null;
}
/** Which of the two variants. */
type Nth = 0 | 1;

/** One variant's part of the answer, marked as if it had been asked alone. */
interface Half {
  readonly marked: Marked;
  readonly row: DealtRow;
  readonly why?: string | undefined;
  readonly usualSlip?: string | undefined;
}

/**
 * Marks what was given for each of two variants by itself. `g`: of a faultless answer the chance to guess both, else
 * that of one. Who knows that they differ has one choice less for the second.
 * @returns no marks where the deck no longer holds what was asked, or the learner no longer flies both
 */
export function markDifference(
  resolved: Resolved,
  question: Question,
  shown: DifferenceShown,
  given: DifferenceGiven | null,
): Marked {
  const pair = pairOf(resolved, question.about.way);
  const asked = pair && askedDifference(resolved, pair, question.about);
  if (!pair || !asked) return { marks: {}, g: 0, flawed: true, detail: { form: 'difference', rows: [] } };
  const answered: Answered = { resolved, question, pair, shown, given };
  const half = (of: Nth, from: Nth): Half =>
    asked.kind === 'limit' ? limitHalf(answered, asked, of, from) : crewHalf(answered, asked, of, from);
  const halves = [half(0, 0), half(1, 1)] as const;
  const marks: Record<ItemKey, Mark> = {};
  for (const { marked } of halves) Object.assign(marks, marked.marks);
  const flawed = halves.some(({ marked }) => marked.flawed);
  const [one, two] = [halves[0].marked.g, halves[1].marked.g];
  const both = shown.fields.length > 0 ? one * two : one / Math.max(1, 1 / two - 1);
  const isExchanged =
    given !== null &&
    halves.every(({ row }) => !row.isRight) &&
    [half(0, 1), half(1, 0)].every(({ row }) => row.isRight);
  return { marks, g: flawed ? Math.max(one, two) : both, flawed, detail: detailOf(halves, isExchanged) };
}

function detailOf(halves: readonly [Half, Half], isExchanged: boolean): DealtDetail {
  const [{ row: one, why, usualSlip }, { row: two }] = halves;
  const shared = one.source !== undefined && one.source === two.source ? one.source : undefined;
  const plain = ({ source: _, ...row }: DealtRow): DealtRow => row;
  return compact({
    form: 'difference' as const,
    rows: shared === undefined ? [one, two] : [plain(one), plain(two)],
    note: isExchanged ? 'The two are exchanged.' : undefined,
    why,
    usualSlip,
    source: shared,
  }) as DealtDetail;
}

/** @param from whose answer is taken: the other's, to see whether they were exchanged */
function limitHalf(
  { resolved, question, pair, shown, given }: Answered,
  { cases }: LimitPair,
  of: Nth,
  from: Nth,
): Half {
  const { id, text } = pair.options[of];
  const { thing } = question.about;
  const marked = markLimit(
    resolved,
    { form: 'limit', about: { thing, case: cases[of].id }, variant: viewAt(pair, of), proves: [cases[of].key] },
    { ...shown, form: 'limit', fields: shown.fields.slice(of, of + 1), choices: shown.seats },
    given && valueAt(given, pair, from),
  );
  const {
    right,
    given: said,
    off,
    counted,
    slip,
    working,
    why,
    usualSlip,
    source,
    dated,
  } = marked.detail as AnswerDetail;
  const notes = [...[counted, slip].filter((line) => line !== undefined), ...working, ...(dated ?? [])];
  const row = compact({
    id,
    text,
    given: said,
    right,
    isRight: !marked.flawed,
    off,
    source,
    notes: notes.length === 0 ? undefined : notes,
  }) as DealtRow;
  return { marked, row, why, usualSlip };
}

function crewHalf(
  { resolved, question, pair, shown, given }: Answered,
  { asked, steps }: CrewPair,
  of: Nth,
  from: Nth,
): Half {
  const { p, situation } = asked[of];
  const { id } = steps[of].step;
  const { text } = pair.options[of];
  const seat = given !== null && 'deal' in given ? given.deal[pair.options[from].id] : undefined;
  const marked = markCrew(
    resolved,
    {
      ...question,
      form: 'crew',
      about: { thing: p.procedure.id, situation: situation.id, part: [id] },
      variant: viewAt(pair, of),
    },
    { ...shown, form: 'crew', title: p.procedure.title, before: [], rows: [{ id, text }] },
    given && { deal: seat === undefined ? {} : { [id]: seat } },
  );
  const [row] = (marked.detail as DealtDetail).rows;
  return { marked, row: { ...(row as DealtRow), id: pair.options[of].id } };
}

const viewAt = ({ first, second }: Pair, of: Nth): string => (of === 0 ? first : second).id;

/** A number or a choice that is not there is a wrong one: no right answer is read out of it. */
function valueAt(given: DifferenceGiven, { options }: Pair, from: Nth): LimitGiven {
  if ('deal' in given) return { choice: given.deal[options[from].id] ?? '' };
  return { typed: given.typed.slice(from, from + 1), value: given.value.slice(from, from + 1) };
}
