/** What a single wrong answer says: what was asked, what was given, and whether that means anything by itself. */
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
  WordsDetail,
} from '../model/form.ts';
import type { Facet, ItemKey, Mark } from '../model/item.ts';
import { bandOf, SLACK } from '../subjects/band.ts';
import { withLabels } from '../subjects/fill.ts';
import { formulaWords } from '../subjects/formula-words.ts';
import { caseWords } from '../subjects/limit/words.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { toldLabel } from '../subjects/told-label.ts';

export interface WrongAnswer {
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
  /** Items whose answer was given. */
  readonly others: readonly ItemKey[];
  /** It is one thing taken for another; else it is wrong, and no more can be said. */
  readonly tells: boolean;
  /** The question has other numbers each time: what was given says nothing without them. */
  readonly drawn: boolean;
}

export type Answer = Pick<AnswerEntry, 'deck' | 'form' | 'about' | 'variant' | 'shown' | 'given' | 'marks'>;

/** A number that answers more of the deck's questions than this tells nothing about which was meant. */
const MOST_OTHERS = 2;

const same = (key: ItemKey): ItemKey => key;

/** Answers by any revision of it. */
export const isOfDeck = ({ deck }: Resolved, answer: Pick<Answer, 'deck'>): boolean =>
  answer.deck.slice(0, answer.deck.indexOf('@')) === deck.id;

/**
 * An answer as its deck tells it. One by another revision is told by this one where what was wrong means the same here:
 * the keys are those of today, and it would be marked the same.
 * @param today key of today for an old one
 * @returns null where it was right or not known, where its way of asking has no single answer, where the deck no longer
 * holds it, and where an entry is so odd that it cannot be marked again: one must not hide all others
 */
export const wrongAnswer = (resolved: Resolved, answer: Answer, today = same): WrongAnswer | null => {
  const tell = OF[answer.form];
  if (tell === undefined || answer.given === null || !isOfDeck(resolved, answer)) return null;
  const marks: Record<ItemKey, Mark> = {};
  for (const [key, one] of Object.entries(answer.marks)) marks[today(key)] = one;
  const wrong = Object.keys(marks).filter((key) => marks[key] === 'wrong');
  if (wrong.length === 0) return null;
  try {
    if (answer.deck === resolved.ref) return tell(resolved, { ...answer, marks });
    const [views] = wrong.map((key) => resolved.items.get(key)?.views ?? []);
    // Of an option that came or went with the revision, the first view that asks the same.
    const variant = views?.includes(answer.variant) === false ? (views[0] ?? '') : answer.variant;
    const now = { ...answer, marks, variant };
    return isMarkedSo(resolved, now, wrong) ? tell(resolved, now) : null;
  } catch {
    return null;
  }
};

const isMarkedSo = (resolved: Resolved, answer: Answer, wrong: readonly ItemKey[]): boolean => {
  const { marks } = markedAgain(resolved, answer);
  return wrong.every((key) => resolved.items.has(key) && marks[key] === 'wrong');
};

const markedAgain = (resolved: Resolved, answer: Answer) =>
  mark(resolved, { ...answer, proves: Object.keys(answer.marks) }, answer.shown as Shown, answer.given as Given);

const detailOf = (resolved: Resolved, answer: Answer): Detail => markedAgain(resolved, answer).detail;

const ofLimit = (resolved: Resolved, answer: Answer): WrongAnswer | null => {
  const asked = askedLimit(resolved, answer.variant, answer.about);
  if (asked === null) return null;
  const { limit } = asked.limit;
  const given = answer.given as LimitGiven;
  const ask = askWords(resolved, limit.ask, asked.case.given);
  const { given: said, slip = null } = detailOf(resolved, answer) as AnswerDetail;
  const told = {
    asked: ask,
    given: said,
    right: caseWords(asked.limit, asked.case),
    key: asked.case.key,
    drawn: false,
  };
  if (isFact(limit) || 'choice' in given) return { ...told, kind: 'choice', isFor: [], others: [], slip, tells: true };

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
    return { ...told, kind: 'number', isFor: asks, others: others.map(({ key }) => key), slip: null, tells: true };
  return { ...told, kind: 'number', isFor: [], others: [], slip, tells: slip !== null };
};

const askWords = ({ deck }: Resolved, ask: string, given: string): string =>
  withLabels(deck, given === '' ? ask : `${ask} (${given})`);

const ofScenario = (resolved: Resolved, answer: Answer): WrongAnswer | null => {
  const asked = askedScenario(resolved, answer.variant, answer.about);
  if (asked === null) return null;
  const { view, scenario, ask } = asked;
  const { title } = scenario.scenario;
  const words = withLabels(resolved.deck, title === undefined ? ask.ask.ask : `${title}: ${ask.ask.ask}`);
  const detail = detailOf(resolved, answer) as AnswerDetail;
  const told = { asked: words, given: detail.given, right: detail.right };
  if ('number' in ask) {
    const slip = detail.slip ?? null;
    const { key } = ask;
    return { ...told, kind: 'number', key, isFor: [], others: [], slip, tells: slip !== null, drawn: true };
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
    tells: true,
    drawn: false,
  };
};

const ofNext = (resolved: Resolved, answer: Answer): WrongAnswer | null => {
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
    tells: true,
    drawn: false,
  };
};

const wrongKey = ({ marks }: Answer, { items }: Resolved, ...facets: readonly Facet[]): ItemKey | undefined => {
  const wrong = Object.keys(marks).filter((key) => marks[key] === 'wrong');
  return wrong.find((key) => facets.includes(items.get(key)?.facet ?? 'place'));
};

const ofCue = (resolved: Resolved, answer: Answer): WrongAnswer | null => {
  const { right, wrong } = detailOf(resolved, answer) as NextDetail;
  const key = wrongKey(answer, resolved, 'cue');
  if (wrong === undefined || key === undefined) return null;
  return plain(resolved, key, wrong.text, right.text);
};

const ofWords = (resolved: Resolved, answer: Answer): WrongAnswer | null => {
  const { given, right, wordsRight, seat } = detailOf(resolved, answer) as WordsDetail;
  const key = wrongKey(answer, resolved, wordsRight ? 'crew' : 'words');
  if (key === undefined) return null;
  return wordsRight
    ? plain(resolved, key, seat?.given ?? '', seat?.right ?? '')
    : plain(resolved, key, `“${given}”`, right.text);
};

const plain = (resolved: Resolved, key: ItemKey, given: string, right: string): WrongAnswer => {
  const item = resolved.items.get(key);
  const asked = item === undefined ? key : toldLabel(resolved, item);
  return { key, asked, given, right, kind: 'choice', isFor: [], others: [], slip: null, tells: false, drawn: false };
};

/** Of a run it is its own line that shows what was out of place; what is dealt has several answers in one. */
const OF: Readonly<Partial<Record<FormId, (resolved: Resolved, answer: Answer) => WrongAnswer | null>>> = {
  next: ofNext,
  limit: ofLimit,
  value: ofLimit,
  scenario: ofScenario,
  rule: ofScenario,
  cue: ofCue,
  callout: ofWords,
  list: ofWords,
};
