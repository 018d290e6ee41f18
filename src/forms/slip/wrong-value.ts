import type { Id, NumberLimit, Step } from '../../model/deck.ts';
import { isNumberLimit } from '../../model/deck.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { bandOf } from '../../subjects/band.ts';
import { caseWords } from '../../subjects/limit/words.ts';
import type { ResolvedCase, ResolvedLimit, View } from '../../subjects/resolved.ts';
import { limitIn } from '../look-up.ts';
import { isRight } from '../right.ts';
import { machineSlips } from '../slip.ts';
import type { Window } from './window.ts';

/** So many bands off a wrong number stands: nobody is to argue about the last foot. */
const BANDS = 2;
/** A machine's number: so far off, as a share of the right one, and of its size still. */
const FAR = 0.15;
const SIZE = 4;

/** A case of a step's limit, and numbers that may stand in its stead, the most telling first. */
export interface WrongValue {
  readonly limit: ResolvedLimit;
  readonly case: ResolvedCase;
  readonly values: readonly (readonly number[])[];
}

/**
 * Cases whose number may be shown wrong in a row. Never of what is done from memory, never of anything critical, also
 * where another step of the view names the limit so: a wrong number that was read is remembered as well.
 */
export function wrongValuesAt(window: Window, row: number): WrongValue[] {
  const { asked, steps, before } = window;
  const { view, p } = asked;
  const one = steps[row];
  if (one?.step.limit === undefined || !showsValues(window) || one.critical || guarded(view).has(one.step.limit))
    return [];
  const found = limitIn(view, one.step.limit);
  if (found === undefined || !isNumberLimit(found.limit) || found.limit.critical) return [];
  const { limit } = found;
  // The same limit in another row would tell, and so would its number in any text.
  if (steps.filter(({ step }) => step.limit === limit.id).length > 1) return [];
  const texts = [...steps, ...before].map(({ text }) => text).concat(p.procedure.starts ?? '');
  return found.cases.flatMap((c) => {
    const right = c.value as readonly number[];
    if (c.critical || right.some((x) => texts.some((text) => says(text, tradeForm(x, null))))) return [];
    const values = wrongFor(view, found, limit, c);
    return values.length === 0 ? [] : [{ limit: found, case: c, values }];
  });
}

/** Are numbers shown in the rows? Where none can be wrong they would only tell. */
export const showsValues = ({ asked: { p } }: Pick<Window, 'asked'>): boolean => p.done === 'flow';

const says = (text: string, number: string): boolean =>
  ` ${text.replace(/[^\p{L}\p{N}.,]+/gu, ' ')} `.includes(` ${number} `);

function wrongFor(view: View, found: ResolvedLimit, limit: NumberLimit, c: ResolvedCase): (readonly number[])[] {
  const right = c.value as readonly number[];
  const { plus, minus } = bandOf(limit.accept);
  const width = { plus: BANDS * plus, minus: BANDS * minus };
  const words = caseWords(found, c);
  const isWrong = (value: readonly number[]): boolean =>
    value.length === right.length &&
    value.some((x, i) => !isRight(x, right[i] as number, width, limit.show)) &&
    (value.length < 2 || (value[0] as number) < (value[1] as number)) &&
    caseWords(found, { ...c, value }) !== words;
  const authored = (limit.slips ?? []).flatMap(({ value }) => right.map((_, i) => put(right, i, value)));
  const others = (limit.cases ?? []).map(({ value, from, to }) =>
    value === undefined ? [from ?? Number.NaN, to ?? Number.NaN] : [value],
  );
  const telling = [...authored, ...others].filter((value) => !value.some(Number.isNaN) && isWrong(value));
  if (telling.length > 0) return telling;
  // No arithmetic on the compass.
  if (limit.show === 'direction' || limit.show === 'runway') return [];
  const beside = view.limits.flatMap((other) =>
    other !== found && isNumberLimit(other.limit) && other.limit.unit === limit.unit
      ? other.cases.flatMap(({ value }) =>
          (value as readonly number[]).map((x) => ({ value: x, ask: other.limit.ask })),
        )
      : [],
  );
  return right
    .flatMap((r, i) =>
      machineSlips(r, limit.unit, beside)
        .filter(({ value }) => isLikely(value, r))
        .map(({ value }) => put(right, i, value)),
    )
    .filter(isWrong);
}

/** As round as the right one, of its sign and size: no crew would set ten times as much. */
const isLikely = (value: number, right: number): boolean =>
  Math.sign(value) === Math.sign(right) &&
  Math.abs(value - right) >= FAR * Math.abs(right) &&
  value / right <= SIZE &&
  right / value <= SIZE &&
  places(value) <= places(right);
const put = (list: readonly number[], at: number, value: number): number[] =>
  list.map((x, i) => (i === at ? value : x));
const places = (x: number): number => String(Number(x.toPrecision(12))).split('.')[1]?.length ?? 0;

const known = new WeakMap<View, ReadonlySet<Id>>();

/** Limits that a memory procedure or a critical step names. */
function guarded(view: View): ReadonlySet<Id> {
  const before = known.get(view);
  if (before !== undefined) return before;
  const found = new Set<Id>();
  for (const { done, situations } of view.procedures)
    for (const { step, critical } of situations.flatMap(({ steps }) => steps))
      if (done === 'memory' || critical) for (const id of limitsOf(step)) found.add(id);
  known.set(view, found);
  return found;
}

const limitsOf = ({ limit, cue, from, until, after }: Step): Id[] =>
  [limit, cue?.limit, from?.limit, until?.limit, after?.atLeast?.limit, after?.atMost?.limit].filter(
    (id) => id !== undefined,
  );
