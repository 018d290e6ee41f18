import type { Json } from '../../lib/canonical-json.ts';
import type { FactLimit, Id, Limit, LimitCase, TableLimit, Unit, When } from '../../model/deck.ts';
import { isFact, isTable } from '../../model/deck.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { withLabels } from '../../subjects/fill.ts';
import { at } from '../../subjects/finding.ts';
import { limitSense } from '../../subjects/limit/words.ts';
import { fieldName, fieldWords, type Saying, whenWords } from './field-words.ts';
import { type Field, namedFields, plainFields } from './fields.ts';
import type { Put } from './parts.ts';

/** A case as a part of its own: one of `cases`, a row of a table, or the limit itself, whose one case is `standard`. */
interface Case {
  readonly id: Id;
  readonly path: string;
  readonly of: object;
  /** Circumstances and variants in words; '' for the only one. */
  readonly where: string;
  readonly says: string;
  readonly when?: When | undefined;
  readonly displaces: boolean;
}

const VALUES: ReadonlySet<string> = new Set(['value', 'from', 'to', 'is']);
/** What of a limit is in the answer of every case. */
const COMMON: ReadonlySet<string> = new Set(['unit', 'sense', 'strict', 'when']);
/** What of a case is in no answer. */
const BESIDE: ReadonlySet<string> = new Set(['note', 'source', 'edition', 'critical']);

export function limitParts(s: Saying, limit: Limit, path: string, put: Put): void {
  const key = `limit ${limit.id}`;
  const label = `Limit: ${withLabels(s.deck, limit.ask)}`;
  const cases = casesOf(s, limit, path);
  const items = cases.map((one) => itemOf(limit, one.id));
  const unit: { unit?: Unit } = isFact(limit) ? {} : { unit: limit.unit };
  const fields = plainFields(s, limit, path, { items: (name) => (COMMON.has(name) ? items : []), ...unit });
  for (const name of VALUES) fields.delete(name);
  const more = isTable(limit) ? tableFields(limit, path, items) : isFact(limit) ? optionFields(limit, path, items) : [];
  for (const [name, field] of more) fields.set(name, field);
  const variants = whenWords(s.deck.variants ?? [], limit.when);
  const base = { of: 'things', keeps: path } as const;
  const says = cases.map((one) => (one.where === '' ? one.says : `${one.where}: ${one.says}`)).join('; ');
  put({ ...base, key, parent: null, path, label, says, variants, fields });
  for (const one of cases) {
    const own = [itemOf(limit, one.id)];
    const caseFields = plainFields(s, one.of, one.path, { items: (name) => (BESIDE.has(name) ? [] : own), ...unit });
    const value = caseFields.get('value');
    if (isTable(limit) && value) caseFields.set('value', { ...value, path: at(one.path, 1) });
    put({
      ...base,
      key: `${key} ${one.id}`,
      parent: key,
      path: one.path,
      label: one.where === '' ? label : `${label} (${one.where})`,
      says: one.says,
      variants: whenWords(s.deck.variants ?? [], one.when) || variants,
      ...(one.displaces && { displaces: true }),
      fields: caseFields,
    });
  }
}

const itemOf = (limit: Limit, id: Id): string => `${limit.id}.value.${id}`;

function casesOf(s: Saying, limit: Limit, path: string): Case[] {
  if (isTable(limit)) {
    const { rows, input } = limit.table;
    return rows.map(([x, value], i) => ({
      id: `row-${x}`,
      path: at(path, 'table', 'rows', i),
      of: { value },
      where: `${input.label} ${tradeForm(x, input.unit)}`,
      says: `${limitSense(limit)} ${tradeForm(value, limit.unit, undefined, limit.reference)}`.trim(),
      displaces: false,
    }));
  }
  if (limit.cases === undefined) {
    const of = Object.fromEntries(Object.entries(limit).filter(([name]) => VALUES.has(name)));
    return [{ id: 'standard', path, of, where: '', says: valueWords(limit, of), displaces: false }];
  }
  // Where a case without circumstances held for all of them, one that takes some changes what holds there.
  const open = limit.cases.some((one) => one.given === undefined);
  return limit.cases.map((one, i) => {
    const words = [fieldWords(s, 'given', (one.given ?? {}) as Json), whenWords(s.deck.variants ?? [], one.when)];
    return {
      id: one.id,
      path: at(path, 'cases', i),
      of: one,
      where: words.filter((x) => x !== '').join('; '),
      says: valueWords(limit, one),
      when: one.when,
      displaces: open && one.given !== undefined,
    };
  });
}

/** As authored, also where no variant holds it: "at least 250 ft AAL". */
function valueWords(
  limit: Exclude<Limit, TableLimit>,
  of: Pick<LimitCase, 'value' | 'from' | 'to'> & { is?: Id },
): string {
  if (isFact(limit)) return limit.options[of.is ?? ''] ?? of.is ?? '';
  const numbers = (limit.sense === 'from-to' ? [of.from, of.to] : [of.value]).filter((x) => x !== undefined);
  const words = numbers.map((x) => tradeForm(x, limit.unit, limit.show, limit.reference)).join(' to ');
  return `${limitSense(limit)} ${words}`.trim();
}

const tableFields = ({ table }: TableLimit, path: string, items: readonly string[]): [string, Field][] => {
  const { input, method } = table;
  const here = at(path, 'table');
  const said = `${input.label} (${input.unit})`;
  return [
    ['method', { name: fieldName('method'), raw: method, words: method, path: at(here, 'method'), items: [] }],
    ['input', { name: 'input', raw: input, words: said, path: at(here, 'input'), items }],
  ];
};

const optionFields = (limit: FactLimit, path: string, items: readonly string[]): [string, Field][] =>
  namedFields(limit.options, 'option', at(path, 'options'), (option) =>
    limit.cases
      ? limit.cases.flatMap((one) => (one.is === option ? itemOf(limit, one.id) : []))
      : limit.is === option
        ? items
        : [],
  );
