import { askedLimit } from '../forms/limit/draw.ts';
import { mark } from '../forms/registry.ts';
import { isRight } from '../forms/right.ts';
import { askedScenario } from '../forms/scenario/draw.ts';
import { isFact } from '../model/deck.ts';
import type { AnswerEntry } from '../model/entry.ts';
import type {
  AnswerDetail,
  Detail,
  FormId,
  Given,
  LimitGiven,
  NextDetail,
  NextShown,
  ScenarioGiven,
  Shown,
} from '../model/form.ts';
import type { ItemKey } from '../model/item.ts';
import { bandOf, SLACK } from '../subjects/band.ts';
import { withLabels } from '../subjects/fill.ts';
import { formulaWords } from '../subjects/formula-words.ts';
import { caseWords } from '../subjects/limit/words.ts';
import type { Resolved } from '../subjects/resolved.ts';

/** One thing taken for another. */
export interface Confusion {
  /** What was asked, as an item. */
  readonly key: ItemKey;
  /** What was asked. */
  readonly asked: string;
  /** What was given, in trade form or the words of the choice. */
  readonly given: string;
  /** What it would have been right for: other questions of the deck, or circumstances; at most two. */
  readonly isFor: readonly string[];
  readonly kind: 'number' | 'choice';
  /** A slip of another kind that explains it, as a sentence; null where `isFor` does. */
  readonly slip: string | null;
  /** The right answer. */
  readonly right: string;
  /** So often in these answers. */
  readonly times: number;
  /** The other was taken for this one too. */
  readonly bothWays: boolean;
}

type Answer = Pick<AnswerEntry, 'deck' | 'form' | 'about' | 'variant' | 'shown' | 'given' | 'marks'>;

interface Found extends Omit<Confusion, 'times' | 'bothWays'> {
  /** Items whose answer was given. */
  readonly others: readonly ItemKey[];
}

/** A number that answers more of the deck's questions than this tells nothing about which was meant. */
const MOST_OTHERS = 2;

/**
 * Which limit was given for which, which rule's outcome for which, which step for which: of wrong answers those that mean something. A
 * plain choice among options is a confusion by itself. Both ways first, then the most often. Answers that their deck no
 * longer holds are left out.
 */
export const confusionsOf = (answers: Iterable<Answer>, decks: readonly Resolved[]): Confusion[] => {
  const steps = confusionsInSteps(answers, decks);
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
};

/** The same with pauses, for many answers. */
export function* confusionsInSteps(
  answers: Iterable<Answer>,
  decks: readonly Resolved[],
): Generator<void, Confusion[]> {
  const all: Found[] = [];
  for (const answer of answers) {
    yield;
    const resolved = decks.find(({ ref }) => ref === answer.deck);
    if (resolved === undefined || answer.given === null || !Object.values(answer.marks).includes('wrong')) continue;
    const found = foundIn(resolved, answer);
    if (found !== null) all.push(found);
  }
  const same = new Map<string, Found[]>();
  for (const one of all) {
    const name = JSON.stringify([one.key, one.given]);
    const list = same.get(name);
    if (list === undefined) same.set(name, [one]);
    else list.push(one);
  }
  const isTakenFor = (a: ItemKey, b: ItemKey) => all.some(({ key, others }) => key === a && others.includes(b));
  return [...same.values()]
    .map((list): Confusion => {
      const { others, ...told } = list[0] as Found;
      return { ...told, times: list.length, bothWays: others.some((other) => isTakenFor(other, told.key)) };
    })
    .sort((a, b) => Number(b.bothWays) - Number(a.bothWays) || b.times - a.times);
}

/** Null also where an entry is so odd that it cannot be marked again: one must not hide all others. */
const foundIn = (resolved: Resolved, answer: Answer): Found | null => {
  try {
    return OF[answer.form]?.(resolved, answer) ?? null;
  } catch {
    return null;
  }
};

const detailOf = (resolved: Resolved, answer: Answer): Detail =>
  mark(resolved, { ...answer, proves: Object.keys(answer.marks) }, answer.shown as Shown, answer.given as Given).detail;

const ofLimit = (resolved: Resolved, answer: Answer): Found | null => {
  const asked = askedLimit(resolved, answer.variant, answer.about);
  if (asked === null) return null;
  const { limit } = asked.limit;
  const given = answer.given as LimitGiven;
  const ask = askWords(resolved, limit.ask, asked.case.given);
  const { given: said, slip = null } = detailOf(resolved, answer) as AnswerDetail;
  const told = { asked: ask, given: said, right: caseWords(asked.limit, asked.case), key: asked.case.key };
  if (isFact(limit) || 'choice' in given) return { ...told, kind: 'choice', isFor: [], others: [], slip };

  const right = asked.case.value as readonly number[];
  const band = bandOf(limit.accept);
  const show = 'show' in limit ? limit.show : undefined;
  const wrong = given.value.filter((x, i) => right[i] === undefined || !isRight(x, right[i], band, show));
  const others = asked.view.limits.flatMap((other) => {
    if (isFact(other.limit) || other.limit.unit !== limit.unit) return [];
    return other.cases.flatMap((one) => {
      const isIt = (x: number) => (one.value as readonly number[]).some((value) => Math.abs(value - x) <= SLACK);
      const isTaken = one.key !== asked.case.key && wrong.length > 0 && wrong.every(isIt);
      return isTaken ? [{ key: one.key, ask: askWords(resolved, other.limit.ask, one.given) }] : [];
    });
  });
  const asks = [...new Set(others.map((one) => one.ask))];
  if (asks.length > 0 && asks.length <= MOST_OTHERS)
    return { ...told, kind: 'number', isFor: asks, others: others.map(({ key }) => key), slip: null };
  return slip === null ? null : { ...told, kind: 'number', isFor: [], others: [], slip };
};

const askWords = ({ deck }: Resolved, ask: string, given: string): string =>
  withLabels(deck, given === '' ? ask : `${ask} (${given})`);

const ofScenario = (resolved: Resolved, answer: Answer): Found | null => {
  const asked = askedScenario(resolved, answer.variant, answer.about);
  if (asked === null) return null;
  const { view, scenario, ask } = asked;
  const { title } = scenario.scenario;
  const words = withLabels(resolved.deck, title === undefined ? ask.ask.ask : `${title}: ${ask.ask.ask}`);
  const detail = detailOf(resolved, answer) as AnswerDetail;
  const told = { asked: words, given: detail.given, right: detail.right };
  if ('number' in ask) {
    const slip = detail.slip ?? null;
    return slip === null ? null : { ...told, kind: 'number', key: ask.key, isFor: [], others: [], slip };
  }
  const rule = ask.rules.find(({ key }) => answer.marks[key] === 'wrong');
  const given = answer.given as ScenarioGiven;
  if (rule === undefined || !('choice' in given)) return null;
  const taken = ask.rules.filter((one) => one !== rule && one.rule.then.includes(given.choice));
  const where = taken.map((one) =>
    one.if === null ? 'no other rule holds' : formulaWords(resolved.deck, view, scenario, one.if),
  );
  return {
    ...told,
    kind: 'choice',
    key: rule.key,
    isFor: where.slice(0, MOST_OTHERS),
    others: taken.map(({ key }) => key),
    slip: null,
  };
};

const ofNext = (resolved: Resolved, answer: Answer): Found | null => {
  const { title, before } = answer.shown as NextShown;
  const { right, wrong } = detailOf(resolved, answer) as NextDetail;
  const key = Object.keys(answer.marks)[0];
  if (wrong === undefined || key === undefined) return null;
  const last = before.at(-1);
  const places = [...resolved.items.values()].filter(({ thing, facet }) => facet === 'place' && thing === wrong.id);
  return {
    asked: `${title}: ${last === undefined ? 'what comes first' : `what comes after ${last}`}`,
    given: wrong.text,
    right: right.text,
    kind: 'choice',
    key,
    isFor: [],
    others: places.map((item) => item.key),
    slip: null,
  };
};

/** Of a run it is its own line that shows what was out of place. */
const OF: Readonly<Partial<Record<FormId, (resolved: Resolved, answer: Answer) => Found | null>>> = {
  next: ofNext,
  limit: ofLimit,
  value: ofLimit,
  scenario: ofScenario,
  rule: ofScenario,
};
