import type { Deck, Id } from '../../model/deck.ts';
import { type Part, partsOf } from '../compare/parts.ts';
import { resolve } from '../resolve.ts';

/** A thing of a deck that rests on a place of a source. */
export interface Citation {
  /** The same for the same thing, also when it moves in the file. */
  readonly key: string;
  /** JSON Pointer of the thing. */
  readonly path: string;
  readonly label: string;
  /** What it says, to be held against the manual: name and words. */
  readonly says: readonly (readonly [string, string])[];
  readonly source: Id;
  /** '' is the whole source. */
  readonly place: string;
  /** Edition that it was checked against, where that is not the source's own. */
  readonly edition: string | null;
  /** JSON Pointer of what names the source: the thing, or what it is in. */
  readonly holder: string;
}

/** Said by the label or by what the thing says as a whole, or nothing that a manual says. */
const BESIDE: ReadonlySet<string> = new Set(
  'do say ask title situation unit sense strict value to is given then source edition critical place slip slips alsoSay alsoDo strangers show'.split(
    ' ',
  ),
);

/**
 * Everything of a deck that cites a source, in the order of the file: procedures (as a whole), steps, limits or their
 * cases, scenarios, questions or their rules. What names no source of its own cites that of what it is in.
 */
export function citationsOf(deck: Deck): Citation[] {
  return rowsOf(deck).flatMap(({ part, holder }): Citation | readonly [] => {
    if (holder === undefined) return [];
    const ref = sourceOf(holder) as string;
    const cut = ref.indexOf('#');
    return {
      key: part.key,
      path: part.path,
      label: part.label,
      says: saysOf(part),
      source: cut < 0 ? ref : ref.slice(0, cut),
      place: cut < 0 ? '' : ref.slice(cut + 1),
      edition: (holder.fields.get('edition')?.raw as string | undefined) ?? null,
      holder: holder.path,
    };
  });
}

/** What no revision of a source can be held against. */
export type Uncited = Pick<Citation, 'key' | 'path' | 'label'>;

/** Everything that neither names a source nor is in what names one; where nothing of a thing does, the thing alone. */
export function uncitedOf(deck: Deck): Uncited[] {
  const roots = new Map<Part, { readonly bare: Part[]; cited: boolean }>();
  for (const { part, root, holder } of rowsOf(deck)) {
    const of = roots.get(root) ?? { bare: [], cited: false };
    if (holder === undefined) of.bare.push(part);
    else of.cited = true;
    roots.set(root, of);
  }
  return [...roots].flatMap(([root, { bare, cited }]) =>
    (cited || bare.length === 0 ? bare : [root]).map(({ key, path, label }) => ({ key, path, label })),
  );
}

const sourceOf = (part: Part): string | undefined => part.fields.get('source')?.raw as string | undefined;

interface Row {
  readonly part: Part;
  /** The procedure, limit or scenario that it is, or is in. */
  readonly root: Part;
  /** The innermost that names a source, of itself and what it is in. */
  readonly holder: Part | undefined;
}

function rowsOf(deck: Deck): Row[] {
  const first = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options).slice(0, 1)]));
  const parts = partsOf(deck, resolve(deck, '0'.repeat(64), first).views[0]);
  /** The cases of a limit, the rules of a question, stand for it. */
  const split = new Set(
    [...parts.values()].flatMap((p) => (p.parent !== null && /^(limit|ask) /.test(p.parent) ? [p.parent] : [])),
  );
  const isRow = (part: Part): boolean => {
    if (part.of !== 'things') return false;
    if (/^(procedure|scenario) /.test(part.key)) return sourceOf(part) !== undefined;
    // The one case of a plain limit, the rows of a table, are the limit.
    if (part.parent?.startsWith('limit ')) return isCase(part);
    return !(split.has(part.key) && !hasOwnValue(part, parts));
  };
  const within = (part: Part): readonly Part[] => {
    const around = part.parent === null ? undefined : parts.get(part.parent);
    return around === undefined ? [part] : [part, ...within(around)];
  };
  return [...parts.values()].filter(isRow).map((part) => {
    const all = within(part);
    return { part, root: all.at(-1) as Part, holder: all.find((one) => sourceOf(one) !== undefined) };
  });
}

const isCase = (part: Part): boolean => /\/cases\/\d+$/.test(part.path);

/** A limit whose value stands in itself, or in a table. */
const hasOwnValue = (part: Part, parts: ReadonlyMap<string, Part>): boolean =>
  part.key.startsWith('limit ') && ![...parts.values()].some((p) => p.parent === part.key && isCase(p));

const saysOf = (part: Part): (readonly [string, string])[] => [
  ...(part.says === '' ? [] : [['', part.says] as const]),
  ...[...part.fields].flatMap(([key, field]) =>
    BESIDE.has(key) ||
    (key === 'if' && part.key.startsWith('rule ')) ||
    /^(option|drawn value) /.test(key) ||
    field.words === '' ||
    field.words === part.says
      ? []
      : [[field.name, field.words] as const],
  ),
];
