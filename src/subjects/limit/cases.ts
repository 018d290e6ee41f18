import { canonicalJson, type Json } from '../../lib/canonical-json.ts';
import { foldText } from '../../lib/fold-text.ts';
import type {
  Cited,
  Deck,
  FactLimit,
  Given,
  GivenRange,
  Id,
  Limit,
  NumberLimit,
  Sense,
  TableLimit,
  When,
} from '../../model/deck.ts';
import { isFact, isNumberLimit, isTable } from '../../model/deck.ts';
import { tradeForm } from '../../model/trade-form.ts';
import type { ViewContext } from '../context.ts';
import { withLabels } from '../fill.ts';
import type { ResolvedCase, ResolvedLimit } from '../resolved.ts';
import { sourceLine } from '../things.ts';
import { holds } from '../when.ts';

/** A case before it has a key, common to numbers, facts and table rows. */
interface PlainCase {
  readonly id: Id;
  readonly when?: When;
  readonly given?: Given;
  readonly critical: boolean;
  readonly cited: readonly Cited[];
  readonly words: string;
  readonly value: readonly number[] | Id;
  readonly meaning: Json;
}

/**
 * The cases of a limit that hold in a view, each registered as an item.
 * Among cases with equal `given`, one confined to the view's variants goes before one without `when`; where
 * such a confinement cannot be told, none of them is common to all and all are left out.
 */
export function resolveLimit(
  context: Omit<ViewContext, 'limits' | 'limitValue' | 'lookup'>,
  limit: Limit,
): ResolvedLimit {
  const { deck } = context.things;
  if (holds(limit.when, context.pick, context.axes) !== true) return { limit, cases: [] };
  if (isTable(limit) && !limit.asked) return { limit, cases: [] };
  const plain = plainCases(deck, limit);
  // Every row of a table is a case of its own: its input tells it apart.
  const cases = (isTable(limit) ? plain : casesInView(context, plain)).map(
    (c): ResolvedCase => ({
      id: c.id,
      critical: c.critical,
      given: c.words,
      source: sourceLine(deck, ...c.cited),
      value: c.value,
      key: context.register({
        thing: limit.id,
        facet: 'value',
        facetKey: `value.${c.id}`,
        meaning: c.meaning,
        group: limit.id,
        groupKind: 'limit',
        critical: c.critical,
        label: withLabels(deck, c.words === '' ? limit.ask : `${limit.ask} (${c.words})`),
      }),
    }),
  );
  return { limit, cases };
}

function casesInView(context: Pick2, cases: readonly PlainCase[]): PlainCase[] {
  const groups = new Map<string, PlainCase[]>();
  for (const c of cases) {
    const key = canonicalJson((c.given ?? null) as Json);
    groups.set(key, [...(groups.get(key) ?? []), c]);
  }
  const chosen = new Set<PlainCase>();
  for (const group of groups.values()) {
    const confined = group.filter((c) => c.when);
    const truths = confined.map((c) => holds(c.when, context.pick, context.axes));
    const sure = confined.filter((_, i) => truths[i] === true);
    if (sure.length > 0) {
      const narrow = Math.max(...sure.map((c) => Object.keys(c.when ?? {}).length));
      chosen.add(sure.find((c) => Object.keys(c.when ?? {}).length === narrow) as PlainCase);
    } else if (!truths.includes(null)) {
      const open = group.find((c) => !c.when);
      if (open) chosen.add(open);
    }
  }
  return cases.filter((c) => chosen.has(c));
}
type Pick2 = { readonly pick: ViewContext['pick']; readonly axes: ViewContext['axes'] };

function plainCases(deck: Deck, limit: Limit): PlainCase[] {
  if (isFact(limit)) return factCases(deck, limit);
  if (isNumberLimit(limit)) return numberCases(deck, limit);
  return rowCases(limit);
}

function numberCases(deck: Deck, limit: NumberLimit): PlainCase[] {
  const { value, from, to } = limit;
  const own = {
    id: 'standard',
    ...(value !== undefined && { value }),
    ...(from !== undefined && { from }),
    ...(to !== undefined && { to }),
  };
  const out: PlainCase[] = [];
  for (const c of limit.cases ?? [own]) {
    const one = c as typeof own & { when?: When; given?: Given; critical?: boolean } & Cited;
    const numbers = limit.sense === 'from-to' ? [one.from, one.to] : [one.value];
    if (numbers.some((x) => x === undefined)) continue;
    out.push({
      id: one.id,
      ...(one.when && { when: one.when }),
      ...(one.given && { given: one.given }),
      critical: one.critical ?? limit.critical ?? false,
      cited: [one, limit],
      words: givenWords(deck, one.given),
      value: numbers as number[],
      meaning: {
        ...(limit.sense === 'from-to'
          ? { from: one.from as number, to: one.to as number }
          : { value: one.value as number }),
        unit: limit.unit,
        sense: limit.sense,
        ...(limit.strict && { strict: true }),
        ...(one.given && { given: one.given as Json }),
      },
    });
  }
  return out;
}

function factCases(deck: Deck, limit: FactLimit): PlainCase[] {
  const cases = limit.cases ?? (limit.is === undefined ? [] : [{ id: 'standard', is: limit.is }]);
  return cases.map((c): PlainCase => {
    const one: { id: Id; is: Id; when?: When; given?: Given; critical?: boolean } & Cited = c;
    return {
      id: one.id,
      ...(one.when && { when: one.when }),
      ...(one.given && { given: one.given }),
      critical: one.critical ?? limit.critical ?? false,
      cited: [one, limit],
      words: givenWords(deck, one.given),
      value: one.is,
      // The words of the choice, not its id: they are what is recalled.
      meaning: { value: foldText(limit.options[one.is] ?? one.is), ...(one.given && { given: one.given as Json }) },
    };
  });
}

function rowCases(limit: TableLimit): PlainCase[] {
  const { input } = limit.table;
  return limit.table.rows.map(
    ([x, value]): PlainCase => ({
      id: `row-${x}`,
      critical: limit.critical ?? false,
      cited: [limit],
      words: `${input.label} ${tradeForm(x, input.unit)}`,
      value: [value],
      meaning: { value, unit: limit.unit, sense: limit.sense ?? 'exactly', given: { input: x, unit: input.unit } },
    }),
  );
}

/** Circumstances in words: "Flaps 2; One engine inoperative"; '' for none. */
export function givenWords(deck: Deck, given: Given | undefined): string {
  return Object.entries(given ?? {})
    .map(([name, wanted]) => {
      const condition = deck.conditions?.find((c) => c.id === name);
      if (!condition) return `${name}: ${typeof wanted === 'object' ? JSON.stringify(wanted) : wanted}`;
      if ('yes' in condition) return wanted ? condition.yes : condition.no;
      if ('options' in condition) return condition.options[String(wanted)] ?? String(wanted);
      const { from, to } = wanted as GivenRange;
      const say = (x: number): string => tradeForm(x, condition.unit);
      if (from !== undefined && to !== undefined) return `${condition.label} from ${say(from)} to below ${say(to)}`;
      if (from !== undefined) return `${condition.label} ${say(from)} or more`;
      if (to !== undefined) return `${condition.label} below ${say(to)}`;
      return condition.label;
    })
    .join('; ');
}

/** Value of a limit for formulas: NaN where a view holds no case, several, two ends, or a choice. */
export function soleValue(resolved: ResolvedLimit | undefined): number {
  const [only, more] = resolved?.cases ?? [];
  if (!only || more || typeof only.value === 'string' || only.value.length !== 1) return Number.NaN;
  return only.value[0] as number;
}

/** Value read from a table; NaN outside its rows and for what is no table. */
export function tableValue(limit: Limit | undefined, x: number): number {
  if (!limit || !isTable(limit)) return Number.NaN;
  const { rows, method } = limit.table;
  const first = rows[0];
  const last = rows.at(-1);
  if (!first || !last || !(x >= first[0] - 1e-9) || !(x <= last[0] + 1e-9)) return Number.NaN;
  const i = rows.filter((r) => r[0] <= x + 1e-9).length - 1;
  const low = rows[i] ?? first;
  const high = rows[i + 1];
  if (method === 'step' || !high) return low[1];
  return low[1] + ((x - low[0]) / (high[0] - low[0])) * (high[1] - low[1]);
}

/**
 * What a cue or a rule recalls of a limit: every case's value with unit and sense; null where none is common.
 * Circumstances count as authored, not in the words in which they are put to the learner.
 */
export function limitMeaning(resolved: ResolvedLimit | undefined): Json {
  if (!resolved || resolved.cases.length === 0) return null;
  const { limit } = resolved;
  const given = (c: ResolvedCase): Json => {
    if (isTable(limit)) return c.id;
    return (limit.cases?.find((one) => one.id === c.id)?.given ?? null) as Json;
  };
  const value = (c: ResolvedCase): Json =>
    isFact(limit) ? foldText(limit.options[c.value as Id] ?? String(c.value)) : (c.value as readonly number[]);
  return {
    values: resolved.cases.map((c): Json => ({ given: given(c), value: value(c) })),
    ...('unit' in limit && { unit: limit.unit }),
    // A table that says "exactly" says what one without a sense does.
    ...('sense' in limit && !(isTable(limit) && limit.sense === 'exactly') && { sense: limit.sense as Sense }),
    ...('strict' in limit && limit.strict && { strict: true }),
  };
}
