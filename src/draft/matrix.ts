import type { BareView } from '../deck/bare-views.ts';
import type { Amount, Id, Step } from '../model/deck.ts';
import { withLabels } from '../subjects/fill.ts';
import { cueLimitWords, limitWords } from '../subjects/limit/words.ts';
import { flatten } from '../subjects/procedure/flatten.ts';
import { isOrder, partialOrder, restrict } from '../subjects/procedure/order.ts';
import { stepText } from '../subjects/procedure/words.ts';
import type { PartialOrder } from '../subjects/resolved.ts';
import { axesThatMatter, optionWords } from '../subjects/view-names.ts';
import type { Flown } from './flown.ts';

/** What a step is in one column, in words. */
export interface Cell {
  /** The step that the words are of; null: nothing is done there. */
  readonly step: Id | null;
  readonly words: readonly string[];
}

export interface MatrixRow {
  /** Steps of the row: one, or several that stand for one another. */
  readonly steps: readonly Id[];
  /** What they have in common; null where the cells say it all. */
  readonly title: string | null;
  readonly cells: readonly Cell[];
}

/** Rows that differ by the same axes: their columns are the options of these. */
export interface MatrixPart {
  /** Labels of the axes. */
  readonly axes: readonly string[];
  readonly columns: readonly string[];
  readonly rows: readonly MatrixRow[];
}

export interface Matrix {
  readonly parts: readonly MatrixPart[];
  /** Steps that are the same everywhere. */
  readonly common: number;
}

/** The procedure in one view, whatever the situation: what an `if` decides is there. */
interface Sight {
  readonly view: BareView;
  readonly steps: readonly Step[];
  readonly order: PartialOrder | null;
}

/** What a procedure is in each variant, only where the variants differ: presence, order, number. */
export const matrixOf = (flown: Flown): Matrix => {
  const { deck, things, procedure, views } = flown;
  const axes = deck.variants ?? [];
  const sights = views.map((view): Sight => {
    const { steps, pairs } = flatten(things, procedure, view.pick, () => true);
    const order = partialOrder(steps.length, pairs);
    return { view, steps: steps.map(({ step }) => step), order: isOrder(order) ? order : null };
  });
  const before = placesIn(sights, (text) => withLabels(deck, text));
  const say = (step: Step, sight: Sight): string[] => [
    ...numbersOf(step, sight.view),
    ...(before(step.id, sight) ?? []),
  ];
  const groups = alternatives(sights);
  const rows = groups.flatMap((steps) => {
    const cells = sights.map((sight): Cell => {
      const step = steps.find((one) => sight.steps.includes(one));
      if (step === undefined) return { step: null, words: [] };
      return { step: step.id, words: say(step, sight) };
    });
    return cells.every((one) => same(one, cells[0] as Cell)) ? [] : [{ steps, cells }];
  });
  const parts = new Map<string, { readonly only: readonly Id[]; readonly rows: MatrixRow[] }>();
  for (const { steps, cells } of rows) {
    const only = axesThatDecide(cells, sights, axes);
    const columns = columnsOf(sights, only);
    const part = parts.get(only.join()) ?? { only, rows: [] };
    parts.set(only.join(), part);
    const many = steps.length > 1;
    const words = (step: Step): string =>
      withLabels(deck, `${step.by === undefined ? '' : `${crew(step.by)}: `}${stepText(step)}`);
    part.rows.push({
      steps: steps.map(({ id }) => id),
      title: many ? null : words(steps[0] as Step),
      cells: columns.map(([at]) => {
        const cell = cells[at as number] as Cell;
        const step = steps.find(({ id }) => id === cell.step);
        return many && step ? { ...cell, words: [words(step), ...cell.words] } : cell;
      }),
    });
  }
  function crew(by: string): string {
    return things.crew.get(by)?.label ?? by;
  }
  return {
    parts: [...parts.values()].map(({ only, rows: own }) => ({
      axes: axes.filter(({ id }) => only.includes(id)).map(({ label }) => label),
      columns: columnsOf(sights, only).map(([at]) =>
        optionWords((sights[at as number] as Sight).view.pick, only, axes),
      ),
      rows: own,
    })),
    common: groups.flat().length - rows.reduce((sum, { steps }) => sum + steps.length, 0),
  };
};

const same = (a: Cell, b: Cell): boolean => a.step === b.step && a.words.join('\n') === b.words.join('\n');

/** Steps of all views in the order of the text; neighbours that never meet in one view stand for one another. */
const alternatives = (sights: readonly Sight[]): Step[][] => {
  const all: Step[] = [];
  for (const { steps } of sights) {
    let at = 0;
    for (const step of steps) {
      const known = all.indexOf(step);
      // Behind those of other views that stand there already.
      while (known < 0 && at < all.length && !steps.includes(all[at] as Step)) at++;
      if (known < 0) all.splice(at, 0, step);
      at = (known < 0 ? at : known) + 1;
    }
  }
  const seen = (step: Step): boolean[] => sights.map(({ steps }) => steps.includes(step));
  const groups: Step[][] = [];
  for (const step of all) {
    const last = groups.at(-1);
    const here = seen(step);
    const meets = last?.some((other) => seen(other).some((there, i) => there && here[i])) ?? true;
    if (last === undefined || meets) groups.push([step]);
    else last.push(step);
  }
  return groups;
};

/** The numbers that hold a step, its cue and its bounds, as the view has them. */
const numbersOf = (step: Step, view: BareView): string[] => {
  const of = (what: string, limit: Id | undefined, say = limitWords): string[] => {
    if (limit === undefined) return [];
    const words = say(view, limit);
    return [`${what}${words ?? 'no number'}`];
  };
  const wait = (amount: Amount | undefined): string[] => of('wait ', amount?.limit);
  return [
    ...of('', step.limit),
    ...of('cue ', step.cue?.limit, cueLimitWords),
    ...of('from ', step.from?.limit),
    ...of('until ', step.until?.limit),
    ...wait(step.after?.atLeast),
    ...wait(step.after?.atMost),
  ];
};

/** What a step comes right behind, among the steps that all views have, where the views do not agree on it. */
const placesIn = (sights: readonly Sight[], show: (text: string) => string) => {
  const [first] = sights;
  const common =
    first === undefined ? [] : first.steps.filter((one) => sights.every(({ steps }) => steps.includes(one)));
  const behind = sights.map(({ steps, order }) => {
    if (order === null) return new Map<Id, string>();
    const keep = common.map((one) => steps.indexOf(one));
    const found = new Map<Id, string[]>(common.map(({ id }) => [id, []]));
    for (const [a, b] of restrict(order, keep).covers)
      found.get((common[b] as Step).id)?.push(show(stepText(common[a] as Step)));
    return new Map(
      [...found].map(([id, texts]) => [id, texts.length === 0 ? 'at the start' : `after ${texts.sort().join(', ')}`]),
    );
  });
  return (id: Id, sight: Sight): string[] | null => {
    const told = behind.map((one) => one.get(id));
    if (told.every((one) => one === told[0])) return null;
    return [told[sights.indexOf(sight)] ?? ''];
  };
};

/** The axes by which the cells of a row differ. */
const axesThatDecide = (
  cells: readonly Cell[],
  sights: readonly Sight[],
  axes: Flown['deck']['variants'] & object,
): Id[] => {
  const views = sights.map(({ view }) => view);
  const found = new Set<Id>();
  for (const one of cells) {
    const held = views.filter((_, i) => same(cells[i] as Cell, one)).map(({ id }) => id);
    for (const axis of axesThatMatter(held, views, axes)) found.add(axis);
  }
  // Two that never differ alone: both are needed.
  return found.size > 0 ? axes.map(({ id }) => id).filter((id) => found.has(id)) : axes.map(({ id }) => id);
};

/** Places of the views of each column: those with the same options of some axes. */
const columnsOf = (sights: readonly Sight[], only: readonly Id[]): number[][] => {
  const columns = new Map<string, number[]>();
  sights.forEach(({ view }, i) => {
    const key = JSON.stringify(only.map((axis) => view.pick[axis]));
    const column = columns.get(key);
    if (column === undefined) columns.set(key, [i]);
    else column.push(i);
  });
  return [...columns.values()];
};
