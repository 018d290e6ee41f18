import { dateWords, dayOfIso } from '../lib/date-words.ts';
import { ADVISED } from '../memory/outlook.ts';
import type { Item, ItemKey } from '../model/item.ts';
import type { Leavable, Report, ReportDeck, ReportItem, ReportPlan } from '../model/report.ts';
import type { Resolved } from '../subjects/resolved.ts';
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
}

export interface ReportLines {
  readonly about: readonly Line[];
  readonly decks: readonly LinesOfDeck[];
}

export const LEAVABLE_WORDS: Readonly<Record<Leavable, string>> = {
  sure: 'Where you were sure, but wrong',
  queries: 'Questions that you objected to, in your words',
  days: 'The days on which you practised',
  minutes: 'The minutes that it took',
  slips: 'Wrong answers, in words',
};

/** As the file has it: three decimals. */
const chanceWords = (share: number): string => `${(share * 100).toFixed(1)} %`;

const date = (iso: string): string => dateWords(dayOfIso(iso) ?? 0);

/**
 * All that is in a report, in words: what leaves a device is read before.
 * @param fingerprint of the key that signs it, in letters
 * @param resolved the decks that it is about, for what they call their items
 */
export const reportLines = (report: Report, fingerprint: string, resolved: readonly Resolved[]): ReportLines => {
  const { trainee, n, made, app, v, checkDate, planned, plan, assignment, days, minutes, answers, leftOut } = report;
  const about: Line[] = [
    { what: 'You call yourself', said: trainee },
    { what: 'Made on', said: date(made) },
    { what: 'Report of this device', said: `number ${n}` },
    { what: 'Key of this device', said: fingerprint },
    { what: 'Check', said: checkDate === null ? 'no date' : date(checkDate) },
    { what: 'Planned', said: `${planned} minutes a day` },
    ...(plan === undefined ? [] : [{ what: 'What your plan expects', said: planWords(plan) }]),
    ...(assignment === undefined
      ? []
      : [{ what: 'Assignment', said: `${assignment.id}, amendment number ${assignment.n}` }]),
    { what: 'Questions answered', said: String(answers) },
    {
      what: 'Days practised',
      said: days === undefined ? null : days.length === 0 ? 'none' : `${days.length}: ${days.map(date).join(', ')}`,
    },
    { what: 'Time of all answers', said: minutes === undefined ? null : `${minutes} minutes` },
    { what: 'Recorded by', said: 'yourself alone: nobody else saw the answers being given' },
    {
      what: 'Left out',
      said: leftOut.length === 0 ? 'nothing' : leftOut.map((part) => LEAVABLE_WORDS[part]).join('; '),
    },
    { what: 'Written by', said: `Recency ${app}, report format ${v}` },
  ];
  return { about, decks: report.decks.map((deck) => deckLines(deck, resolved)) };
};

const planWords = ({ minutes, recall, needed }: ReportPlan): string => {
  const aim = `${100 * ADVISED} %`;
  const other =
    needed === null ? `no number of minutes would reach ${aim}` : `least minutes a day that reach ${aim}: ${needed}`;
  return `recall of ${chanceWords(recall)} on the check date with ${minutes} minutes a day; ${other}`;
};

const deckLines = (deck: ReportDeck, all: readonly Resolved[]): LinesOfDeck => {
  const { id, version, title, contentId, variants, notAsked, queries, slips } = deck;
  const resolved = all.find((one) => one.deck.id === id);
  const items = resolved?.items ?? new Map<ItemKey, Item>();
  const label = (key: ItemKey) => items.get(key)?.label ?? key;
  const flown = variants.filter((view) => view !== '');
  const views = flown.map((view) => {
    const said = resolved?.views.find((one) => one.id === view)?.label ?? '';
    return said === '' ? view : `${said} (${view})`;
  });
  const numbers = new Map(deck.items.map((item) => [item.key, item]));
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
      { what: 'Deck', said: `${title} (${id}), version ${version}` },
      { what: 'Content', said: contentId },
      { what: 'Variants flown', said: views.length === 0 ? 'none' : views.join('; ') },
      { what: 'Asked of you', said: `${deck.items.length} items` },
      { what: 'Not asked of you', said: `${notAsked} items` },
      ...(queries === undefined ? [{ what: 'Questions that you objected to', said: null }] : []),
      ...(slips === undefined ? [{ what: 'Wrong answers, in words', said: null }] : []),
    ],
    parts: parts.map((part) => ({
      title: part.title,
      said: partWords(part.items.flatMap(({ key }) => numbers.get(key) ?? [])),
      items: part.items.flatMap(({ key, label: said }) => {
        const item = numbers.get(key);
        return item === undefined ? [] : [{ key, label: said, said: itemWords(item) }];
      }),
    })),
    queries:
      queries?.map(
        ({ items: keys, on, note }) =>
          `${date(on)}, about ${keys.map(label).join('; ')}: ${note === '' ? 'nothing written' : `“${note}”`}`,
      ) ?? null,
    slips:
      slips?.map(
        ({ key, asked, given, times }) =>
          `${asked}: ${given}, ${times === 1 ? 'once' : `${times} times`} (${label(key)})`,
      ) ?? null,
  };
};

const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;

/** Of several items: what the single ones come to. It is not in the file itself. */
const partWords = (items: readonly ReportItem[]): string => {
  const verdicts = new Map(items.map((item) => [item.key, item.verdicts]));
  const total = verdictsOf(verdicts.keys(), (key) => verdicts.get(key));
  const now = items.flatMap(({ now: share }) => share ?? []);
  const day = items.flatMap(({ day: share }) => share ?? []);
  // A part is one procedure, so that its items have one day.
  const own = items.find(({ check }) => check !== undefined)?.check;
  return [
    `${items.length === 1 ? '1 item' : `${items.length} items`}`,
    ...(own === undefined ? [] : [`checked before the rest, on ${date(own)}`]),
    now.length === 0 ? 'none with a recall chance yet' : `recall of ${now.length} now ${chanceWords(mean(now))}`,
    ...(day.length === 0 ? [] : [`on ${own === undefined ? 'the check date' : 'that day'} ${chanceWords(mean(day))}`]),
    `verdicts: ${verdictWords(total)}`,
  ].join(', ');
};

const verdictWords = ([missed, unsure, sound, fluent]: ReportItem['verdicts']): string =>
  `missed ${missed}, unsure ${unsure}, sound ${sound}, fluent ${fluent}`;

const itemWords = ({ now, day, check, verdicts, sureWrong, voids, last }: ReportItem): string[] => [
  `Recall now: ${now === null ? 'no chance known yet' : chanceWords(now)}. ${
    check === undefined ? 'On the check date' : `On its own check date, ${date(check)}`
  }: ${day === null ? 'no forecast' : chanceWords(day)}.`,
  `Verdicts: ${verdictWords(verdicts)}. Sure, but wrong: ${sureWrong ?? 'left out'}. Taken back: ${voids}.`,
  `Last answered: ${last === undefined ? 'left out' : last === null ? 'no day known' : date(last)}.`,
];
