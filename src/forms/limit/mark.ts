import type { Cited, FactLimit } from '../../model/deck.ts';
import { isFact } from '../../model/deck.ts';
import type { About, AnswerDetail, LimitGiven, LimitShown, Marked } from '../../model/form.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { bandOf } from '../../subjects/band.ts';
import { withLabels } from '../../subjects/fill.ts';
import { caseWords, pitchOf } from '../../subjects/limit/words.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { countedLine, countedWords } from '../counted.ts';
import { compact, viewOf } from '../look-up.ts';
import { offWords } from '../off.ts';
import { datedAnswers, type OtherAnswer, otherAnswers, pastCandidates, rightThere } from '../other-answers.ts';
import { isRight } from '../right.ts';
import { type Candidate, machineSlips, nameSlip } from '../slip.ts';
import { type AskedLimit, askedLimit } from './draw.ts';
import { costOf } from './offers.ts';

/** Marks a limit or a fact; no marks where the deck no longer holds what was asked. */
export function markLimit(resolved: Resolved, question: Question, shown: LimitShown, given: LimitGiven | null): Marked {
  const asked = askedLimit(resolved, question.variant, question.about);
  if (!asked) {
    return { marks: {}, g: 0, flawed: true, detail: { form: 'limit', right: '', given: '', working: [] } };
  }
  const { limit } = asked.limit;
  const others = otherAnswers(resolved, question.variant, (other, view) => sameLimit(other, view, question.about));
  const verdict = isFact(limit)
    ? markFact(asked, limit, others, shown, given)
    : markNumber(resolved, asked, others, given);
  const { deck } = resolved;
  const note = 'cases' in limit ? limit.cases?.find((c) => c.id === asked.case.id)?.note : undefined;
  const right = caseWords(asked.limit, asked.case);
  const dated = datedAnswers(
    others.map(({ of, answer }) => ({ of, answer: caseWords(answer.limit, answer.case) })),
    right,
  );
  const detail: AnswerDetail = compact({
    form: 'limit' as const,
    right,
    given: verdict.words,
    off: verdict.off,
    counted: countedOf(asked),
    slip: verdict.slip,
    working: note === undefined ? [] : [withLabels(deck, note)],
    why: limit.why === undefined ? undefined : withLabels(deck, limit.why),
    usualSlip: limit.slip === undefined ? undefined : withLabels(deck, limit.slip),
    source: asked.case.source ?? undefined,
    pitch: pitchOf(asked.limit, asked.case),
    dated: dated.length === 0 ? undefined : dated,
  }) as AnswerDetail;
  const mark = given === null ? 'told' : verdict.right ? 'right' : 'wrong';
  return {
    marks: { [asked.case.key]: mark },
    g: isFact(limit) ? 1 / Math.max(1, shown.choices.length) : costOf(asked.limit, asked.case).g,
    flawed: mark !== 'right',
    detail,
  };
}

/** The same case in another revision; where that one knows no cases, what it says of all. */
function sameLimit(other: Resolved, view: string, about: About): AskedLimit | null {
  const same = askedLimit(other, view, about);
  if (same) return same;
  const only = viewOf(other, view)?.limits.find(({ limit }) => limit.id === about.thing)?.cases;
  return only?.length === 1 ? askedLimit(other, view, { ...about, case: only[0]?.id as string }) : null;
}

/** The case as it is authored, then its limit: where the source is named. */
const citedBy = ({ limit: { limit }, case: { id } }: AskedLimit): Cited[] => {
  const own = 'cases' in limit ? limit.cases?.find((one) => one.id === id) : undefined;
  return own === undefined ? [limit] : [own, limit];
};

/** Of a number with a band; of two ends each. */
function countedOf({ limit: { limit }, case: { value } }: AskedLimit): string | undefined {
  if (isFact(limit) || typeof value === 'string') return undefined;
  const show = 'show' in limit ? limit.show : undefined;
  return countedLine(
    value.map((right) => countedWords(right, bandOf(limit.accept), limit.unit, show, limit.reference)),
  );
}

interface Verdict {
  readonly right: boolean;
  readonly words: string;
  readonly off?: string | undefined;
  readonly slip?: string | undefined;
}
const NONE: Verdict = { right: false, words: '' };

type Others = readonly OtherAnswer<AskedLimit>[];

function markFact(
  asked: AskedLimit,
  limit: FactLimit,
  others: Others,
  shown: LimitShown,
  given: LimitGiven | null,
): Verdict {
  if (given === null || !('choice' in given)) return NONE;
  const right = given.choice === asked.case.value;
  const matching = (limit.slips ?? []).filter((s) => s.is === given.choice);
  const past = others.find(({ answer }) => answer.case.value === given.choice);
  const own = matching.length === 1 ? matching[0]?.note : undefined;
  return {
    right,
    words: shown.choices.find((c) => c.id === given.choice)?.text ?? limit.options[given.choice] ?? given.choice,
    slip: right ? undefined : (own ?? (past && rightThere(past.of, ...citedBy(asked)))),
  };
}

function markNumber(resolved: Resolved, asked: AskedLimit, others: Others, given: LimitGiven | null): Verdict {
  const { limit } = asked.limit;
  if (isFact(limit) || given === null || !('value' in given)) return NONE;
  const right = asked.case.value as readonly number[];
  const band = bandOf(limit.accept);
  const show = 'show' in limit ? limit.show : undefined;
  const sense = limit.sense ?? 'exactly';
  const hits = right.map((r, i) => {
    const typed = given.value[i];
    return typed !== undefined && isRight(typed, r, band, show);
  });
  const words = given.value.map((x) => tradeForm(x, limit.unit, show, limit.reference)).join(' to ');
  if (hits.every(Boolean)) return { right: true, words };

  const off = right.flatMap((r, i) => {
    const typed = given.value[i];
    if (hits[i] || typed === undefined) return [];
    const end = right.length === 1 ? {} : { end: i === 0 ? ('lower' as const) : ('upper' as const) };
    return [offWords({ typed, right: r, unit: limit.unit, show, sense, ...end })];
  });
  // A slip explains one number: of two fields only where one alone is wrong.
  const wrong = hits.flatMap((h, i) => (h ? [] : [i]));
  const at = wrong[0] as number;
  const typed = given.value[at];
  // In the same unit only; a fact or another unit is another question.
  const numbers = others.flatMap(({ of, answer }) => {
    const other = answer.limit.limit;
    const value = answer.case.value as readonly number[];
    return isFact(other) || other.unit !== limit.unit || value.length !== right.length ? [] : [{ of, answer: value }];
  });
  let slip =
    exchangedEnds(right, given.value, hits, (x, r) => isRight(x, r, band, show)) ??
    bothEnds(numbers, given.value, (x, r) => isRight(x, r, band, show), citedBy(asked));
  if (wrong.length === 1 && typed !== undefined) {
    const r = right[at] as number;
    const authored: Candidate[] = ('slips' in limit ? (limit.slips ?? []) : []).map((s) => ({
      value: s.value,
      note: withLabels(resolved.deck, s.note),
      authored: true,
      slack: Math.max(band.plus, band.minus),
    }));
    const machine =
      show === 'direction' || show === 'runway' ? [] : machineSlips(r, limit.unit, othersOf(resolved, asked));
    const past = pastCandidates(
      numbers.map(({ of, answer }) => ({ of, answer: answer[at] as number })),
      Math.max(band.plus, band.minus),
      ...citedBy(asked),
    );
    slip = nameSlip(typed, r, band, [...authored, ...past, ...machine]);
  }
  return { right: false, words, off: off.join('; '), slip };
}

/** Both fields by another revision. */
function bothEnds(
  others: readonly OtherAnswer<readonly number[]>[],
  typed: readonly number[],
  hit: (typed: number, right: number) => boolean,
  cited: readonly Cited[],
): string | undefined {
  const found = others.find(
    ({ answer }) => answer.length > 1 && answer.every((r, i) => hit(typed[i] ?? Number.NaN, r)),
  );
  return found && rightThere(found.of, ...cited);
}

function exchangedEnds(
  right: readonly number[],
  typed: readonly number[],
  hits: readonly boolean[],
  hit: (typed: number, right: number) => boolean,
): string | undefined {
  const [from, to] = right;
  const [a, b] = typed;
  if (from === undefined || to === undefined || a === undefined || b === undefined || hits.some(Boolean))
    return undefined;
  return hit(a, to) && hit(b, from) ? 'The two ends are exchanged.' : undefined;
}

/** Numbers of the deck's other limits and other cases in the same unit and view. */
function othersOf(resolved: Resolved, asked: AskedLimit): { value: number; ask: string }[] {
  const { limit } = asked.limit;
  if (isFact(limit)) return [];
  return asked.view.limits.flatMap((l) =>
    isFact(l.limit) || l.limit.unit !== limit.unit
      ? []
      : l.cases.flatMap((c) =>
          c.key === asked.case.key
            ? []
            : (c.value as readonly number[]).map((value) => ({
                value,
                ask: withLabels(resolved.deck, c.given === '' ? l.limit.ask : `${l.limit.ask} (${c.given})`),
              })),
        ),
  );
}
