import { crewLabel } from '../forms/run/extras.ts';
import type { NumberLimit, Unit } from '../model/deck.ts';
import { tradeForm } from '../model/trade-form.ts';
import { caseWords, dayValueWords } from '../subjects/limit/words.ts';
import { drawCircumstances } from '../subjects/procedure/situations.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../subjects/resolved.ts';
import { wordsIn } from './walk-line.ts';

/** A speed or a height at which something is done in a procedure. */
export interface Gate {
  /** One, or the two ends of a band, rising. */
  readonly values: readonly number[];
  /** What stands over each figure: "V1", "min", "from"; '' for nothing. */
  readonly names: readonly string[];
  /** In trade form: "V1 131 kt", "at least 450 ft AAL". */
  readonly words: string;
  /** What the deck calls a limit; absent for a value of the day. */
  readonly what?: string;
  /** What is done there, "PF Ease the stick" each. */
  readonly done: readonly string[];
}

export interface GateLine {
  readonly title: string;
  readonly unit: Unit;
  /** Counted from here, and drawn from there; null: from the lowest. */
  readonly datum: 0 | null;
  /** Some of it is of one day, drawn as an example. */
  readonly example: boolean;
  /** Rising, two at least. */
  readonly gates: readonly Gate[];
}

interface Found extends Gate {
  readonly unit: Unit;
  readonly reference: string;
  readonly ofDay: boolean;
}

/** An altitude is counted from the sea: a line from there would say little of the heights that matter. */
const COUNTED_FROM_ZERO = /^(AAL|AGL|above\b)/i;

/** One day serves as well as another. */
const DAY = 1;

/**
 * Speeds and heights of a procedure in one situation, those that are counted alike on one line each. Of limits in kt or
 * ft without a reference only those that a step waits for or is bounded by: the others may be of the wind.
 */
export const gateLines = (
  resolved: Resolved,
  view: View,
  found: ResolvedProcedure,
  situation: Situation,
): readonly GateLine[] => {
  const gates = gatesOf(resolved, view, found, situation);
  const groups = new Map<string, Found[]>();
  for (const gate of gates) {
    const group = `${gate.unit} ${gate.unit === 'kt' && gate.reference === 'IAS' ? '' : gate.reference}`;
    groups.set(group, [...(groups.get(group) ?? []), gate]);
  }
  return [...groups.values()].flatMap((group): GateLine[] => {
    const [first] = group;
    if (first === undefined || new Set(group.flatMap(({ values }) => values)).size < 2 || group.length < 2) return [];
    const reference = group.find((one) => one.reference !== '')?.reference ?? '';
    return [
      {
        title: titleOf(first.unit, reference),
        unit: first.unit,
        datum: COUNTED_FROM_ZERO.test(reference) && group.every(({ values }) => (values[0] ?? 0) >= 0) ? 0 : null,
        example: group.some(({ ofDay }) => ofDay),
        gates: group
          .map(({ values, names, words, what, done }) => ({
            values,
            names,
            words,
            ...(what !== undefined && { what }),
            done,
          }))
          .sort((a, b) => (a.values[0] ?? 0) - (b.values[0] ?? 0) || (a.values.at(-1) ?? 0) - (b.values.at(-1) ?? 0)),
      },
    ];
  });
};

const titleOf = (unit: Unit, reference: string): string =>
  `${unit === 'kt' ? 'Speeds' : reference === 'MSL' ? 'Altitudes' : 'Heights'}, ${unit}${
    reference === '' ? '' : ` ${reference}`
  }`;

const isDrawn = (unit: Unit): boolean => unit === 'kt' || unit === 'ft';

type Use = 'cue' | 'from' | 'until' | 'limit';
const BOUNDS: Readonly<Partial<Record<Use, string>>> = { from: ' (from here)', until: ' (up to here)' };

const usesOf = ({ step }: RunStep): readonly { readonly use: Use; readonly limit?: string; readonly day?: string }[] =>
  [
    { use: 'cue' as const, ...step.cue },
    { use: 'from' as const, ...step.from },
    { use: 'until' as const, ...step.until },
    { use: 'limit' as const, ...(step.limit !== undefined && { limit: step.limit }) },
  ].map(({ use, limit, day }: { use: Use; limit?: string; day?: string }) => ({
    use,
    ...(limit !== undefined && { limit }),
    ...(day !== undefined && { day }),
  }));

const gatesOf = (resolved: Resolved, view: View, found: ResolvedProcedure, situation: Situation): Found[] => {
  const { deck } = resolved;
  const uses = situation.steps.flatMap((step) => usesOf(step).map((one) => ({ ...one, step })));
  const days = [...new Set(uses.flatMap(({ day }) => day ?? []))];
  const drawn = drawCircumstances(
    { deck, requires: view.requires, lookups: view },
    found.conditions,
    situation.id,
    days,
    DAY,
  );
  const doneAt = (is: (use: (typeof uses)[number]) => boolean): string[] => [
    ...new Set(
      uses.filter(is).map(({ use, step: { step, text } }) => {
        const by = step.by === undefined ? '' : `${crewLabel(resolved, step.by)} `;
        return `${by}${wordsIn(resolved, text)}${BOUNDS[use] ?? ''}`;
      }),
    ),
  ];
  const ofDay = days.flatMap((id): Found[] => {
    const day = deck.day?.find((one) => one.id === id);
    const value = drawn?.[id];
    if (day === undefined || drawn === null || !isDrawn(day.unit) || typeof value !== 'number') return [];
    const words = dayValueWords(deck, id, drawn);
    const done = doneAt((one) => one.day === id);
    return [{ values: [value], names: [day.label], words, done, unit: day.unit, reference: '', ofDay: true }];
  });
  const limits = [...new Set(uses.flatMap(({ limit }) => limit ?? []))].flatMap((id): Found[] => {
    const one = view.limits.find(({ limit }) => limit.id === id);
    if (one === undefined || !('sense' in one.limit) || 'table' in one.limit) return [];
    const limit = one.limit as NumberLimit;
    const passed = uses.some((use) => use.limit === id && use.use !== 'limit');
    if (!isDrawn(limit.unit) || limit.show !== undefined || (limit.reference === undefined && !passed)) return [];
    const done = doneAt((use) => use.limit === id);
    return one.cases.flatMap((each): Found[] => {
      const values = (typeof each.value === 'string' ? [] : each.value).filter(Number.isFinite);
      if (values.length === 0) return [];
      return [
        {
          values,
          names: namesOf(limit),
          words: `${each.given === '' ? '' : `${each.given}: `}${caseWords(one, each)}`,
          what: wordsIn(resolved, limit.ask),
          done,
          unit: limit.unit,
          reference: limit.reference ?? '',
          ofDay: false,
        },
      ];
    });
  });
  return [...ofDay, ...limits];
};

/** As short as beside a figure on a chart. */
const namesOf = ({ sense, strict }: NumberLimit): readonly string[] => {
  switch (sense) {
    case 'at least':
      return [strict ? 'above' : 'min'];
    case 'at most':
      return [strict ? 'below' : 'max'];
    case 'about':
      return ['about'];
    case 'from-to':
      return ['from', 'to'];
    case 'exactly':
      return [''];
  }
};

/** The bare figure, as it stands at its tick. */
export const gateFigure = (value: number): string => tradeForm(value, null);
