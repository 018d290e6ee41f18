import type { Verdicts } from '../drill/tally.ts';
import type { Nature, Source } from '../model/deck.ts';
import { type DeckSource, minutesOf } from './build.ts';
import { ownSources } from './own-sources.ts';
import { partsOf, verdictsOf } from './parts.ts';

export interface RecordRow {
  readonly title: string;
  readonly items: number;
  readonly verdicts: Verdicts;
}

export interface RecordDeck {
  readonly id: string;
  readonly title: string;
  readonly nature: Nature;
  readonly version: string;
  /** 64 hex. */
  readonly contentId: string;
  /** Of what is flown. */
  readonly sources: readonly Source[];
  /** Variants flown, for people. */
  readonly variants: readonly string[];
  /** Study days, null where nothing was answered. */
  readonly from: number | null;
  readonly to: number | null;
  readonly days: number;
  readonly minutes: number;
  /** Questions answered. */
  readonly answers: number;
  readonly rows: readonly RecordRow[];
  /** Of items that are no longer asked: another answer is right by now, or they are left out. Null where there are none. */
  readonly former: RecordRow | null;
}

export interface PracticeRecord {
  readonly decks: readonly RecordDeck[];
  /** Of all decks; a day with several of them is one. */
  readonly from: number | null;
  readonly to: number | null;
  readonly days: number;
  readonly minutes: number;
  readonly answers: number;
}

/** What was practised, for a training file. Decks without an answer are no part of it. */
export const practiceRecord = (sources: readonly DeckSource[]): PracticeRecord => {
  const practised = sources.filter(({ tally }) => (tally?.answers ?? 0) > 0);
  const days = [...new Set(practised.flatMap(({ tally }) => tally?.days ?? []))].sort((a, b) => a - b);
  const total = (of: 'ms' | 'answers') => practised.reduce((sum, { tally }) => sum + (tally?.[of] ?? 0), 0);
  return {
    decks: practised.map(recordOf),
    from: days[0] ?? null,
    to: days.at(-1) ?? null,
    days: days.length,
    minutes: minutesOf(total('ms')),
    answers: total('answers'),
  };
};

const recordOf = ({ resolved, contentId, asked, tally }: DeckSource): RecordDeck => {
  const { id, title, nature, version } = resolved.deck;
  const days = tally?.days ?? [];
  const items = new Map(tally?.items);
  const verdicts = (key: string) => items.get(key)?.verdicts;
  const now = new Set(asked.map(({ key }) => key));
  const former = [...items.keys()].filter((key) => !now.has(key));
  const formerly = verdictsOf(former, verdicts);
  return {
    id,
    title,
    nature,
    version,
    contentId,
    sources: ownSources(resolved),
    variants: resolved.views.flatMap(({ label }) => (label === '' ? [] : [label])),
    from: days[0] ?? null,
    to: days.at(-1) ?? null,
    days: days.length,
    minutes: minutesOf(tally?.ms ?? 0),
    answers: tally?.answers ?? 0,
    rows: partsOf(resolved, asked).map((part) => ({
      title: part.title,
      items: part.items.length,
      verdicts: verdictsOf(
        part.items.map(({ key }) => key),
        verdicts,
      ),
    })),
    former: formerly.some((n) => n > 0) ? { title: 'No longer asked', items: former.length, verdicts: formerly } : null,
  };
};
