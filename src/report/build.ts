import type { Slips } from '../drill/slips.ts';
import type { DeckTally, ItemTally } from '../drill/tally.ts';
import { checkDayOf } from '../drill/world.ts';
import { isoOfDay } from '../lib/date-words.ts';
import { recallChance } from '../memory/fsrs.ts';
import type { Memory } from '../memory/types.ts';
import type { Item } from '../model/item.ts';
import {
  LEAVABLE,
  type Leavable,
  REPORT_FORMAT,
  type Report,
  type ReportDeck,
  type ReportFormer,
  type ReportItem,
  type ReportPlan,
} from '../model/report.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { verdictsOf } from './parts.ts';

/** A deck in practice, and what was done with it. */
export interface DeckSource {
  readonly resolved: Resolved;
  /** 64 hex. */
  readonly contentId: string;
  /** Items that are asked of this learner, in the deck's order. */
  readonly asked: readonly Item[];
  /** Items of the deck that would be asked, were nothing of it left out. */
  readonly notAsked: number;
  /** Null where nothing was answered yet. */
  readonly tally: DeckTally | null;
  /** Wrong answers in words. */
  readonly slips: Slips;
}

export interface ReportSource {
  readonly trainee: string;
  readonly n: number;
  /** Study day of today. */
  readonly day: number;
  /** Version of the app. */
  readonly app: string;
  /** Study day of the check, null without one. */
  readonly checkDay: number | null;
  /** Study days of checks before it, today's among them, by `<deck id>#<procedure>`. */
  readonly ownCheckDays?: ReadonlyMap<string, number>;
  /** Minutes a day. */
  readonly planned: number;
  /** Of all that is practised, as the learner is told it; null: not known, or of other decks too. */
  readonly plan?: ReportPlan | null;
  readonly assignment?: { readonly id: string; readonly n: number };
  readonly decks: readonly DeckSource[];
  readonly memory: Pick<Memory, 'items' | 'model'>;
  readonly leftOut: ReadonlySet<Leavable>;
}

const NOTHING: ItemTally = { verdicts: [0, 0, 0, 0], sureWrong: 0, voids: 0, last: null };

/**
 * Days, at least, from an item's last answer to the moment for which its recall is told. Right after a verdict the model
 * says 1 of everything, also of what was just missed: what was answered today is told as it will be tomorrow.
 */
const LEAST_GAP = 1;

const rounded = (share: number): number => Math.round(Math.min(1, Math.max(0, share)) * 1000) / 1000;

/** ms as whole minutes. */
export const minutesOf = (ms: number): number => Math.round(ms / 60_000);

/** A report of what is here. What is left out is not in it. */
export const buildReport = (source: ReportSource): Report => {
  const { trainee, n, day, app, checkDay, planned, plan = null, assignment, decks, leftOut } = source;
  const tallies = decks.flatMap(({ tally }) => tally ?? []);
  const days = new Set(tallies.flatMap((tally) => tally.days));
  return {
    recency: 'report',
    v: REPORT_FORMAT,
    trainee,
    n,
    made: isoOfDay(day),
    app,
    checkDate: checkDay === null ? null : isoOfDay(checkDay),
    planned,
    ...(plan !== null && checkDay !== null && checkDay > day && { plan: { ...plan, recall: rounded(plan.recall) } }),
    ...(assignment !== undefined && { assignment }),
    decks: decks.map((deck) => deckOf(deck, source)),
    ...(!leftOut.has('days') && { days: [...days].sort((a, b) => a - b).map(isoOfDay) }),
    ...(!leftOut.has('minutes') && { minutes: minutesOf(sum(tallies.map(({ ms }) => ms))) }),
    answers: sum(tallies.map(({ answers }) => answers)),
    leftOut: LEAVABLE.filter((part) => leftOut.has(part)),
    selfRecorded: true,
  };
};

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);

const deckOf = (source: DeckSource, of: ReportSource): ReportDeck => {
  const { resolved, contentId, asked, notAsked, tally, slips } = source;
  const former = formerOf(source, of.leftOut);
  const { id, version, title } = resolved.deck;
  const items = new Map(tally?.items);
  return {
    id,
    version,
    title,
    contentId,
    variants: resolved.views.map((view) => view.id),
    items: asked.map((item) => itemOf(item, items.get(item.key) ?? NOTHING, of)),
    notAsked,
    ...(!of.leftOut.has('queries') && {
      queries: (tally?.queries ?? []).map((query) => ({
        items: query.items,
        on: isoOfDay(query.day),
        note: query.note,
      })),
    }),
    ...(!of.leftOut.has('slips') && {
      slips: slips.told,
      ...(slips.leftOut > 0 && { slipsLeftOut: slips.leftOut }),
    }),
    ...(former !== null && { former }),
  };
};

/** What was answered, and is no longer asked: null where there is nothing. */
const formerOf = ({ asked, tally }: DeckSource, leftOut: ReadonlySet<Leavable>): ReportFormer | null => {
  const now = new Set(asked.map(({ key }) => key));
  const gone = (tally?.items ?? []).filter(([key, { verdicts }]) => !now.has(key) && verdicts.some((n) => n > 0));
  if (gone.length === 0) return null;
  const of = new Map(gone);
  return {
    items: gone.length,
    verdicts: verdictsOf(of.keys(), (key) => of.get(key)?.verdicts),
    ...(!leftOut.has('sure') && { sureWrong: sum(gone.map(([, { sureWrong }]) => sureWrong)) }),
  };
};

const itemOf = (
  item: Item,
  { verdicts, sureWrong, voids, last }: ItemTally,
  { memory, day, checkDay, ownCheckDays, leftOut }: ReportSource,
): ReportItem => {
  const { key } = item;
  const known = memory.items.get(key);
  const on = (when: number) =>
    known === undefined ? null : rounded(recallChance(known, Math.max(when, known.day + LEAST_GAP), memory.model));
  const isAhead = checkDay !== null && checkDay >= day;
  const named = isAhead ? checkDayOf({ checkDay, ...(ownCheckDays && { ownCheckDays }) }, item) : null;
  const own = named !== null && named >= day && named < (checkDay as number) ? named : undefined;
  return {
    key,
    now: on(day),
    // Not that of the plan: whoever gave it up would look as if they had kept it.
    day: isAhead ? on(own ?? checkDay) : null,
    ...(own !== undefined && { check: isoOfDay(own) }),
    verdicts,
    ...(!leftOut.has('sure') && { sureWrong }),
    voids,
    ...(!leftOut.has('days') && { last: last === null ? null : isoOfDay(last) }),
  };
};

/** Of two words for one file the one that every device takes: letters, digits, hyphens. */
export const reportName = ({ trainee, made }: Pick<Report, 'trainee' | 'made'>): string => {
  const name = trainee.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '');
  return `${name === '' ? 'trainee' : name}-${made}.report.txt`;
};
