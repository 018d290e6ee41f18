import { MOST_OF_ITEM } from '../drill/slips.ts';
import { dateWords, dayOfIso } from '../lib/date-words.ts';
import { plural } from '../lib/plural.ts';
import { ADVISED } from '../memory/outlook.ts';
import { type Item, type ItemKey, withoutStamp } from '../model/item.ts';
import type { Leavable, Report, ReportDeck, ReportFormer, ReportItem, ReportPlan } from '../model/report.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { toldLabel } from '../subjects/told-label.ts';
import { partsOf, verdictsOf } from './parts.ts';

/** Something that is in the file; null: it is left out. */
export interface Line {
  readonly what: string;
  readonly said: string | null;
}

export interface LinesOfItem {
  readonly key: ItemKey;
  readonly label: string;
  readonly said: readonly string[];
}

export interface LinesOfPart {
  readonly title: string;
  /** In one line: what all its items come to. */
  readonly said: string;
  readonly items: readonly LinesOfItem[];
}

export interface LinesOfDeck {
  readonly id: string;
  readonly title: string;
  readonly fictional: boolean;
  readonly lines: readonly Line[];
  readonly parts: readonly LinesOfPart[];
  /** Null: left out. */
  readonly queries: readonly string[] | null;
  readonly slips: readonly string[] | null;
  /** How many wrong answers are not among the slips, and which; null: none. */
  readonly slipsLeftOut: string | null;
  /** Names of the deck, its variants and its items as the file has them. */
  readonly names: readonly Line[];
}

export interface ReportLines {
  readonly about: readonly Line[];
  /** As the file has them: the assignment. */
  readonly names: readonly Line[];
  readonly decks: readonly LinesOfDeck[];
}

export const LEAVABLE_WORDS: Readonly<Record<Leavable, string>> = {
  sure: 'Where you were sure, but wrong',
  queries: 'Your queries about questions, in your words',
  days: 'The days on which you practised',
  minutes: 'The minutes that it took',
  slips: 'Wrong answers, in words',
};

/** The file has three decimals; for people they would be more than anybody knows. */
const chanceWords = (share: number): string => `${Math.round(share * 100)} %`;

const date = (iso: string): string => dateWords(dayOfIso(iso) ?? 0);

/**
 * All that is in a report, in words: what leaves a device is read before.
 * @param fingerprint of the key that signs it, in letters
 * @param resolved the decks that it is about, for what they call their items
 * @param assigned title of the assignment, which the file names by its id
 */
export const reportLines = (
  report: Report,
  fingerprint: string,
  resolved: readonly Resolved[],
  assigned = '',
): ReportLines => {
  const { trainee, n, made, app, v, checkDate, planned, plan, assignment, days, minutes, answers, leftOut } = report;
  const about: Line[] = [
    { what: 'You call yourself', said: trainee },
    { what: 'Made on', said: date(made) },
    { what: 'Report of this device', said: `number ${n}` },
    { what: 'Key of this device', said: fingerprint },
    { what: 'Check', said: checkDate === null ? 'no date' : date(checkDate) },
    { what: 'Planned', said: `${plural(planned, 'minute')} a day` },
    ...(plan === undefined ? [] : [{ what: 'What your plan expects', said: planWords(plan) }]),
    ...(assignment === undefined ? [] : [{ what: 'Assignment', said: assignmentWords(assigned, assignment.n) }]),
    { what: 'Questions answered', said: String(answers) },
    {
      what: 'Days practised',
      said: days === undefined ? null : days.length === 0 ? 'none' : `${days.length}: ${days.map(date).join(', ')}`,
    },
    { what: 'Time of all answers', said: minutes === undefined ? null : minutesWords(minutes, answers) },
    { what: 'Recorded by', said: 'yourself alone: nobody else saw the answers being given' },
    {
      what: 'Left out',
      said: leftOut.length === 0 ? 'nothing' : leftOut.map((part) => LEAVABLE_WORDS[part]).join('; '),
    },
    { what: 'Written by', said: `Recency ${app}, report format ${v}` },
  ];
  const names = assignment === undefined ? [] : [{ what: 'Assignment', said: assignment.id }];
  return { about, names, decks: report.decks.map((deck) => deckLines(deck, resolved)) };
};

const assignmentWords = (title: string, n: number): string =>
  [title === '' ? 'without a title' : `“${title}”`, n === 1 ? 'as first made' : `number ${n}, which amends it`].join(
    ', ',
  );

const planWords = ({ minutes, recall, needed }: ReportPlan): string => {
  const aim = `${100 * ADVISED} %`;
  const other =
    needed === null ? `no number of minutes would reach ${aim}` : `least minutes a day that reach ${aim}: ${needed}`;
  return `recall of ${chanceWords(recall)} on the check date with ${plural(minutes, 'minute')} a day; ${other}`;
};

const deckLines = (deck: ReportDeck, all: readonly Resolved[]): LinesOfDeck => {
  const { id, version, title, contentId, variants, notAsked, queries, slips, slipsLeftOut, former } = deck;
  const resolved = all.find((one) => one.deck.id === id);
  const items = resolved?.items ?? new Map<ItemKey, Item>();
  const numbers = new Map(deck.items.map((item) => [item.key, item]));
  // What was never answered keeps its answer to itself.
  const labelOf = (item: Item): string =>
    resolved !== undefined && (numbers.get(item.key)?.verdicts ?? []).some((n) => n > 0)
      ? toldLabel(resolved, item)
      : item.label;
  const label = (key: ItemKey): string => {
    const item = items.get(key);
    if (item !== undefined) return labelOf(item);
    // Of an older revision: the same thing, with another answer.
    const later = [...items.values()].find((one) => withoutStamp(one.key) === withoutStamp(key));
    return later === undefined ? (resolved === undefined ? key : 'what is no longer asked') : later.label;
  };
  const flown = variants.filter((view) => view !== '');
  const views = flown.map((view) => resolved?.views.find((one) => one.id === view)?.label || view);
  const parts =
    resolved === undefined
      ? []
      : partsOf(
          resolved,
          deck.items.flatMap(({ key }) => items.get(key) ?? []),
        );
  return {
    id,
    title,
    fictional: resolved?.deck.nature === 'fictional',
    lines: [
      { what: 'Deck', said: `${title}, version ${version}` },
      { what: 'Variants flown', said: views.length === 0 ? 'none' : views.join('; ') },
      { what: 'Asked of you', said: plural(deck.items.length, 'item') },
      { what: 'Not asked of you', said: plural(notAsked, 'item') },
      ...(former === undefined ? [] : [{ what: 'No longer asked', said: formerWords(former) }]),
      ...(queries === undefined ? [{ what: 'Your queries about questions', said: null }] : []),
      ...(slips === undefined ? [{ what: 'Wrong answers, in words', said: null }] : []),
    ],
    parts: parts.map((part) => ({
      title: part.title,
      said: partWords(part.items.flatMap(({ key }) => numbers.get(key) ?? [])),
      items: part.items.flatMap((one) => {
        const item = numbers.get(one.key);
        return item === undefined ? [] : [{ key: one.key, label: labelOf(one), said: itemWords(item) }];
      }),
    })),
    queries:
      queries?.map(
        ({ items: keys, on, note }) =>
          `${date(on)}, about ${keys.map(label).join('; ')}: ${note === '' ? 'nothing written' : `“${note}”`}`,
      ) ?? null,
    slips:
      slips?.map(({ key, asked, given, times }) =>
        [`${asked}: ${given}, ${timesWords(times)}`, ...beyond(asked, label(key))].join(' '),
      ) ?? null,
    slipsLeftOut: slipsLeftOut === undefined ? null : leftOutWords(slipsLeftOut, slips?.length ?? 0),
    names: [
      { what: 'Deck', said: id },
      { what: 'Content', said: contentId },
      ...(flown.length === 0 ? [] : [{ what: 'Variants flown', said: flown.join('; ') }]),
      ...parts.flatMap((part) => part.items.map((item) => ({ what: labelOf(item), said: item.key }))),
      ...[...new Set(queries?.flatMap((query) => query.items))]
        .filter((key) => !numbers.has(key))
        .map((key) => ({ what: label(key), said: key })),
    ],
  };
};

/** What the label of the item says besides the question, in brackets. */
const beyond = (asked: string, label: string): readonly string[] => {
  if (asked === label) return [];
  return [label.startsWith(`${asked} (`) ? label.slice(asked.length + 1) : `(${label})`];
};

const minutesWords = (minutes: number, answers: number): string =>
  minutes === 0 && answers > 0 ? 'less than a minute' : plural(minutes, 'minute');

const timesWords = (times: number): string => (times === 1 ? 'once' : times === 2 ? 'twice' : `${times} times`);

const leftOutWords = (count: number, told: number): string =>
  `${plural(count, told === 0 ? 'wrong answer is' : 'more wrong answer is', told === 0 ? 'wrong answers are' : 'more wrong answers are')} left out: to questions with several answers in one, such as a sequence; numbers worked out anew each time; what is no longer asked, or has another answer by now; and all but the ${MOST_OF_ITEM} commonest of an item.`;

const formerWords = ({ items, verdicts, sureWrong }: ReportFormer): string =>
  [
    `${plural(items, 'item')} that a revision changed, or that you left out or no longer fly`,
    verdictWords(verdicts),
    ...(sureWrong === undefined ? [] : [`sure, but wrong: ${sureWrong}`]),
    'all of it told here alone, and in no part below',
  ].join('; ');

const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;

/** Of several items: what the single ones come to. It is not in the file itself. */
const partWords = (items: readonly ReportItem[]): string => {
  const verdicts = new Map(items.map((item) => [item.key, item.verdicts]));
  const total = verdictsOf(verdicts.keys(), (key) => verdicts.get(key));
  const now = items.flatMap(({ now: share }) => share ?? []);
  const day = items.flatMap(({ day: share }) => share ?? []);
  // A part is one procedure, so that its items have one day.
  const own = items.find(({ check }) => check !== undefined)?.check;
  const on = own === undefined ? 'on the check date' : 'on that day';
  const isAnswered = total.some((n) => n > 0);
  // Of an answer that proves too little nothing is foretold.
  const none = isAnswered ? 'none with a recall chance yet' : 'none answered yet';
  const some = `recall of ${now.length} now ${chanceWords(mean(now))}`;
  return [
    plural(items.length, 'item'),
    ...(own === undefined ? [] : [`checked before the rest, on ${date(own)}`]),
    now.length === 0 ? none : day.length === 0 ? some : `${some}, ${on} ${chanceWords(mean(day))}`,
    ...(isAnswered ? [verdictWords(total)] : []),
  ].join('; ');
};

/** Counted are answers: of one item there may be several. */
const verdictWords = ([missed, unsure, sound, fluent]: ReportItem['verdicts']): string =>
  `${plural(missed, 'answer')} missed, ${unsure} unsure, ${sound} sound, ${fluent} fluent`;

const itemWords = ({ now, day, check, verdicts, sureWrong, voids, last }: ReportItem): string[] => [
  `Recall now: ${now === null ? 'no chance known yet' : chanceWords(now)}. ${
    check === undefined ? 'On the check date' : `On its own check date, ${date(check)}`
  }: ${day === null ? 'no forecast' : chanceWords(day)}.`,
  `${verdictWords(verdicts)}. Sure, but wrong: ${sureWrong ?? 'left out'}. Taken back: ${voids}.`,
  `Last answered: ${last === undefined ? 'left out' : last === null ? 'no day known' : date(last)}.`,
];
