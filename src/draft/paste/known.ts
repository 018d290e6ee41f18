import type { Json } from '../../lib/canonical-json.ts';
import { foldText } from '../../lib/fold-text.ts';
import type { Cue } from '../../model/deck.ts';
import { DEFAULT_CREW } from '../../model/deck.ts';
import { plain } from './clean.ts';
import type { Known, Named } from './types.ts';

type Members = { readonly [key: string]: Json | undefined };

/** What of a draft a pasted row may name. Whatever has no id or is no text is left out. */
export const knownOf = (doc: Json): Known => {
  const deck = (typeof doc === 'object' && doc !== null && !Array.isArray(doc) ? doc : {}) as Members;
  const named = (list: Json | undefined, ...keys: string[]): Named[] =>
    (Array.isArray(list) ? (list as readonly Json[]) : []).flatMap((one) => {
      if (typeof one !== 'object' || one === null || Array.isArray(one)) return [];
      const { id, ...rest } = one as Members;
      const names = keys.map((key) => rest[key]).filter((name) => typeof name === 'string' && name !== '');
      return typeof id === 'string' ? [{ id, names: names as string[] }] : [];
    });
  return {
    crew: [...DEFAULT_CREW.map(({ id, label }) => ({ id, names: [label] })), ...named(deck.crew, 'label')],
    limits: named(deck.limits, 'ask'),
    sources: named(deck.sources, 'title'),
    conditions: named(deck.conditions, 'label', 'yes'),
    day: named(deck.day, 'label'),
  };
};

const find = (list: readonly Named[], text: string): string | null => {
  const wanted = foldText(text);
  return (
    list.find(({ id, names }) => id === text || [id, ...names].some((name) => foldText(name) === wanted))?.id ?? null
  );
};

/** The id of a limit from its id or question. What names none is kept as it stands, for the checker to point at. */
export const limitOf = (cell: string, known: Known): { readonly limit: string; readonly note?: string } => {
  const limit = find(known.limits, cell);
  if (limit !== null) return { limit };
  return { limit: cell, note: `“${cell}” is no limit of this deck: kept as it stands until you choose one.` };
};

/** `source#place` from what a list writes: an id, a title, either with a place behind, or a place where there is one source. */
export const sourceOf = (cell: string, known: Known): { readonly source: string; readonly note?: string } => {
  const [id = '', ...place] = cell.split('#');
  if (known.sources.some((one) => one.id === id)) return { source: [id, ...place].join('#') };
  const words = cell.split(' ');
  for (let n = words.length; n > 0; n--) {
    const found = find(
      known.sources,
      words
        .slice(0, n)
        .join(' ')
        .replace(/[,;:§]+$/, ''),
    );
    if (found === null) continue;
    const rest = words
      .slice(n)
      .join(' ')
      .replace(/^[,;:§\s]+/, '');
    return { source: rest === '' ? found : `${found}#${rest}` };
  }
  const [only, other] = known.sources;
  if (only !== undefined && other === undefined && /^[§\s]*\d[\d.\-–/()a-z]*$/i.test(cell))
    return { source: `${only.id}#${cell.replace(/^[§\s]+/, '')}` };
  return { source: cell, note: `“${cell}” is no source of this deck: kept as it stands until you choose one.` };
};

/** A formula of a yes/no condition from its name, "not" before it turning it round; null: no condition of the deck. */
export const conditionOf = (cell: string, known: Known): string | null => {
  const [, not, name = ''] = /^(?:only )?(?:(?:if|when|with) )?(not |no |without |!)?(.+)$/i.exec(cell) ?? [];
  const whole = find(known.conditions, cell);
  if (whole !== null) return whole;
  const found = find(known.conditions, name);
  return found === null ? null : not === undefined ? found : `!${found}`;
};

/** Does it look like a formula rather than words? */
export const isFormula = (cell: string): boolean => /[=<>&|!()]/.test(cell) || /^[a-z][A-Za-z0-9]*$/.test(cell);

const CUE_KEYS = ['limit', 'day', 'event'] as const;

/** A cue in one cell: `limit gate-height; day v1; its words`. */
export const cueCell = (cue: Cue): string =>
  [...CUE_KEYS.flatMap((key) => (cue[key] === undefined ? [] : [`${key} ${cue[key]}`])), cue.text ?? '']
    .filter((one) => one !== '')
    .map(plain)
    .join('; ');

/** The other way round: what names a limit, a value of the day or a condition of the deck; the rest is words. */
export const cueOf = (cell: string, known: Known): Cue => {
  const lists = { limit: known.limits, day: known.day, event: known.conditions };
  const cue: { limit?: string; day?: string; event?: string; text?: string } = {};
  let rest = cell;
  for (;;) {
    const [whole = '', key, id] = /^(limit|day|event) ([A-Za-z0-9-]+)(?:; |$)/.exec(rest) ?? [];
    const kind = CUE_KEYS.find((one) => one === key);
    if (kind === undefined || id === undefined || cue[kind] !== undefined) break;
    if (!lists[kind].some((one) => one.id === id)) break;
    cue[kind] = id;
    rest = rest.slice(whole.length);
  }
  return rest === '' ? cue : { ...cue, text: rest };
};
