import { foldText } from '../../lib/fold-text.ts';
import { fnv1a } from '../../lib/hash.ts';
import type { Id } from '../../model/deck.ts';
import type { FaultKind } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { restrict } from '../../subjects/procedure/order.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import type { Asked } from '../run/draw.ts';
import { crewLabel } from '../run/extras.ts';
import { strangersAt, variantsAt } from './strange.ts';
import { type Window, windowOf } from './window.ts';
import { wrongValuesAt } from './wrong-value.ts';

/** A fault that can be planted. */
export interface Plan {
  readonly kind: FaultKind;
  readonly step: Id;
  readonly item: ItemKey;
  /** Row of its step, in the right order. */
  readonly row: number;
  /** Rows that it takes for itself, rising: no other fault may be there. */
  readonly rows: readonly number[];
  /** missing: rows that wait for its step directly, rising; each of them is as good a place to speak up. */
  readonly waiting?: readonly number[];
  /** value: which case. */
  readonly case?: Id;
  /** crew: who is shown. */
  readonly by?: string;
}

/** `<kind>:<step id>`, of a value `value:<step id>/<case id>`; joined by `+`. */
export const wayOf = (plans: readonly Plan[]): string =>
  plans.map((plan) => `${plan.kind}:${plan.step}${plan.case === undefined ? '' : `/${plan.case}`}`).join('+');

/** What a way names; what is no way of this form is left out. */
export const readWay = (way: string): { readonly kind: FaultKind; readonly step: Id; readonly case?: Id }[] =>
  way.split('+').flatMap((one) => {
    const [, kind, step, of] = /^(swapped|missing|stranger|variant|value|crew):([^/]+)(?:\/(.+))?$/.exec(one) ?? [];
    return step === undefined ? [] : [{ kind: kind as FaultKind, step, ...(of !== undefined && { case: of }) }];
  });

/** @returns null where one of them cannot be planted, or they stand in each other's way */
export function plansOf(window: Window, way: string): readonly Plan[] | null {
  const plans = readWay(way).flatMap(({ kind, step, case: of }) => {
    const row = window.steps.findIndex((one) => one.step.id === step);
    return (row < 0 ? [] : plansAt(window, row)).filter((plan) => plan.kind === kind && plan.case === of);
  });
  if (plans.length !== way.split('+').length) return null;
  return plans.every((a, i) => plans.every((b, j) => i === j || canStandBeside(a, b))) ? plans : null;
}

/** Of lines that do not belong but one: two might be the same. */
export const canStandBeside = (a: Plan, b: Plan): boolean =>
  a.item !== b.item && !(isInserted(a) && isInserted(b)) && !a.rows.some((row) => b.rows.includes(row));

/** Does it bring a line of its own? */
export const isInserted = ({ kind }: Pick<Plan, 'kind'>): boolean => kind === 'stranger' || kind === 'variant';

/** Of each item that a row can prove one fault; which kind is as good as by lot, but always the same. */
export function choosePlans(window: Window, salt: string): Plan[] {
  return window.steps.flatMap((_, row) => {
    const byItem = new Map<ItemKey, Plan[]>();
    for (const plan of plansAt(window, row)) byItem.set(plan.item, [...(byItem.get(plan.item) ?? []), plan]);
    return [...byItem].map(([item, plans]) => plans[fnv1a(`${item} ${salt}`) % plans.length] as Plan);
  });
}

/** Every fault that can be planted at a row. */
function plansAt(window: Window, row: number): Plan[] {
  const { step, place } = window.steps[row] as RunStep;
  // What reads like another step cannot be told from it.
  if (!window.alone(row)) return [];
  const plans: Plan[] = [];
  const add = (kind: FaultKind, item: ItemKey | null, more: Partial<Plan> = {}): void => {
    if (item !== null) plans.push({ kind, step: step.id, item, row, rows: [row], ...more });
  };
  const partner = partnerOf(window, row);
  if (partner !== null) add('swapped', place, { rows: partner < row ? [partner, row] : [row, partner] });
  const waiting = earlyWithout(window, row);
  const [early, ...others] = waiting;
  if (early !== undefined) add('missing', place, { rows: [...rowsBetween(row, early), ...others], waiting });
  if (strangersAt(window, row).length > 0) add('stranger', place);
  if (variantsAt(window, row).length > 0) add('variant', place);
  for (const wrong of wrongValuesAt(window, row)) add('value', wrong.case.key, { case: wrong.case.id });
  const by = otherSeat(window, row);
  if (by !== null) add('crew', (window.steps[row] as RunStep).crew, { by });
  return plans;
}

/** The row that is exchanged with this one: the next, else the one before; null where either order is right. */
function partnerOf({ order, alone, steps }: Window, row: number): number | null {
  if (row + 1 < steps.length && order.before[row]?.[row + 1] && alone(row + 1)) return row + 1;
  return row > 0 && order.before[row - 1]?.[row] && alone(row - 1) ? row - 1 : null;
}

const rowsBetween = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, i) => first + i);

/**
 * Rows that come too early when this one is left out, rising: what it must precede directly (in the transitive
 * reduction), the first row that waits for it always among them. What waits for those in turn follows them rightly.
 * Empty where nothing waits for it, or where it may well have been done before what is shown begins.
 */
function earlyWithout({ order, asked: { situation, part }, before }: Window, row: number): number[] {
  const at = part[row] as number;
  const [from] = part as readonly [number];
  const shown = [...before.keys()].map((i) => from - before.length + i).concat(part.slice(0, row));
  if (from > 0 && !shown.some((i) => situation.order.before[i]?.[at])) return [];
  return order.covers.flatMap(([a, b]) => (a === row ? [b] : [])).sort((a, b) => a - b);
}

/** Who is of the crew, but no one person's seat. */
const SHARED: ReadonlySet<string> = new Set(['both', 'either']);
const PILOTS = ['PF', 'PM'];

/**
 * The other of two seats: PF and PM, or where a procedure knows neither, the only two that it knows. A captain may fly
 * or monitor: who is wrong then cannot be told.
 */
function otherSeat({ resolved, asked: { p }, steps }: Window, row: number): string | null {
  const { step, crew, text } = steps[row] as RunStep;
  if (crew === null || step.by === undefined || SHARED.has(step.by)) return null;
  const named = new Set(p.situations.flatMap((s) => s.steps.flatMap((one) => one.step.by ?? [])));
  const seats = PILOTS.some((pilot) => named.has(pilot)) ? PILOTS : [...named].filter((by) => !SHARED.has(by));
  const other = seats.find((by) => by !== step.by);
  if (seats.length !== 2 || !seats.includes(step.by) || other === undefined) return null;
  const words = ` ${foldText(text)} `;
  return seats.some((by) => words.includes(` ${foldText(crewLabel(resolved, by))} `)) ? null : other;
}

export const windowIn = (resolved: Resolved, asked: Asked): Window =>
  windowOf(resolved, asked, restrict(asked.situation.order, asked.part));
