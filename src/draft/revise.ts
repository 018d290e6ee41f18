import { type Citation, citationsOf } from '../deck/sheet/citations.ts';
import { concerns, paragraphsIn } from '../deck/sheet/paragraphs.ts';
import type { Json } from '../lib/canonical-json.ts';
import type { Deck, Source } from '../model/deck.ts';
import { apply, type Change, put, valueAt } from './change.ts';
import { changesTo } from './difference.ts';

/** same: the new text says the same. changed: it does not, and the thing was or will be put right. */
export type Tick = 'same' | 'changed';

/** A revision sheet as far as it is filled in; kept beside the draft. */
export interface RevisionSheet {
  /** Id of the source that was revised. */
  readonly source: string;
  /** Changed paragraphs, as typed. */
  readonly paragraphs: string;
  readonly edition: string;
  /** ISO date, or as typed. */
  readonly issued: string;
  /** By `Citation.key`. */
  readonly ticks: Readonly<Record<string, Tick>>;
}

export const BLANK_SHEET: RevisionSheet = { source: '', paragraphs: '', edition: '', issued: '', ticks: {} };

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A sheet from what was kept; what is not readable of it is blank. */
export const readSheet = (kept: unknown): RevisionSheet => {
  if (!isObject(kept)) return BLANK_SHEET;
  const text = (key: string): string => (typeof kept[key] === 'string' ? kept[key] : '');
  const ticks = isObject(kept.ticks) ? Object.entries(kept.ticks) : [];
  return {
    source: text('source'),
    paragraphs: text('paragraphs'),
    edition: text('edition'),
    issued: text('issued'),
    ticks: Object.fromEntries(ticks.filter((one): one is [string, Tick] => one[1] === 'same' || one[1] === 'changed')),
  };
};

/** What of a deck's citations rests on the changed paragraphs. */
export const concernedBy = (
  citations: readonly Citation[],
  { source, paragraphs }: Pick<RevisionSheet, 'source' | 'paragraphs'>,
): Citation[] => {
  const changed = paragraphsIn(paragraphs);
  return citations.filter((one) => one.source === source && concerns(changed, one.place));
};

/** Those of the things that are not ticked, ticked as still right. */
export const tickedSame = (sheet: RevisionSheet, of: readonly Citation[]): RevisionSheet['ticks'] => ({
  ...Object.fromEntries(of.map(({ key }) => [key, 'same' as const])),
  ...sheet.ticks,
});

/** Citations one after another that are in the same procedure; null: in none. */
export interface CitedGroup {
  /** JSON Pointer. */
  readonly procedure: string | null;
  readonly of: readonly Citation[];
}

export const byProcedure = (citations: readonly Citation[]): CitedGroup[] => {
  const groups: { procedure: string | null; of: Citation[] }[] = [];
  for (const one of citations) {
    const procedure = /^\/procedures\/\d+/.exec(one.path)?.[0] ?? null;
    const last = groups.at(-1);
    if (last?.procedure === procedure) last.of.push(one);
    else groups.push({ procedure, of: [one] });
  }
  return groups;
};

/** What a sheet lacks before it can be applied, in words for the author; null: nothing. */
export const sheetProblem = (deck: Deck, sheet: RevisionSheet): string | null => {
  const source = deck.sources.find((one) => one.id === sheet.source);
  if (source === undefined) return 'Choose the source that was revised.';
  const [edition, issued] = [sheet.edition.trim(), sheet.issued.trim()];
  if (issued !== '' && !/^\d{4}-\d{2}-\d{2}$/.test(issued)) return 'Write the date of issue as 2026-11-25.';
  if ((edition === '' || edition === source.edition) && (issued === '' || issued === source.issued))
    return 'Enter the new edition, or its date of issue.';
  return null;
};

/** What the edition before is called beside a thing. Where it had no name, it is called after the new one. */
const oldName = (source: Source, sheet: RevisionSheet): string =>
  source.edition ?? source.issued ?? `before ${sheet.edition.trim() || sheet.issued.trim()}`;

/**
 * The draft with the sheet applied: the source has its new edition and date. What rests on changed paragraphs and was
 * not ticked says the edition that it was last checked against; what was ticked counts as checked against the new one.
 * What rests on other paragraphs is left alone: an unchanged paragraph is as right as it was, so it counts as checked
 * against the new edition, and what says an older edition goes on saying it.
 * @returns one step
 */
export const applySheet = (value: Json, deck: Deck, sheet: RevisionSheet): Change[] => {
  const index = deck.sources.findIndex((one) => one.id === sheet.source);
  const source = deck.sources[index];
  if (source === undefined) return [];
  let next = value;
  const set = (path: string, to: Json | undefined): void => {
    if (valueAt(next, path) !== to) next = apply(next, [put(next, path, to)]);
  };
  const [edition, issued] = [sheet.edition.trim(), sheet.issued.trim()];
  if (edition !== '') set(`/sources/${index}/edition`, edition);
  // The date of another edition would be a wrong one.
  set(`/sources/${index}/issued`, issued === '' ? undefined : issued);
  const groups = new Map<string, Citation[]>();
  for (const one of concernedBy(citationsOf(deck), sheet))
    groups.set(one.holder, [...(groups.get(one.holder) ?? []), one]);
  for (const [holder, of] of groups) {
    const said = (one: Citation): string | undefined =>
      sheet.ticks[one.key] === undefined ? (one.edition ?? oldName(source, sheet)) : undefined;
    const own = of.find((one) => one.path === holder);
    const all = new Set(of.map(said));
    // What stands for others without a line of its own is as old as the oldest of them.
    const common =
      own !== undefined ? said(own) : all.size === 1 ? said(of[0] as Citation) : of.map(said).find(Boolean);
    for (const one of of) {
      if (one.path === holder || said(one) === common) continue;
      set(`${one.path}/source`, valueAt(value, `${holder}/source`));
      set(`${one.path}/edition`, said(one));
    }
    set(`${holder}/edition`, common);
  }
  return changesTo(value, next);
};
