import { expect, test } from 'vitest';
import { procedureLines } from '../../../src/drill/procedure-lines.ts';
import type { Answered } from '../../../src/drill/types.ts';
import { chanceAfter } from '../../../src/memory/fsrs.ts';
import type { Item, Verdict } from '../../../src/model/item.ts';
import type { RunStep } from '../../../src/subjects/resolved.ts';
import { DAY, known, memoryOf } from '../memory/memories.ts';
import { resolvedDeck } from './practice.ts';

const merrow = resolvedDeck('merrow-abnormal', { engine: ['tk11'], operator: ['calder'] });
const stepsOf = (id: string): readonly RunStep[] =>
  merrow.views[0]?.procedures.find(({ procedure }) => procedure.id === id)?.situations[0]?.steps ?? [];
const procedures = merrow.views[0]?.procedures.filter(({ situations }) => situations[0]?.steps[0]?.place) ?? [];
const long = procedures.find(({ situations }) => (situations[0]?.steps.length ?? 0) >= 7)?.procedure.id ?? '';
const other = procedures.find(({ procedure }) => procedure.id !== long)?.procedure.id ?? '';
const placesOf = (id: string) => stepsOf(id).map(({ place }) => place as string);
const item = (key: string): Item => merrow.items.get(key) as Item;

const answered = (verdicts: Record<string, Verdict>, more: Partial<Answered> = {}): Answered => ({
  entry: 't.1',
  deck: merrow.ref,
  form: 'run',
  about: { thing: long },
  sure: true,
  ms: 1000,
  g: 0,
  items: Object.keys(verdicts),
  verdicts,
  predicted: {},
  ...more,
});

test('before a forecast: only what was missed or not sure now, and no chances', () => {
  const places = placesOf(long);
  const told = [
    answered({ [places[1] as string]: 'missed', [places[2] as string]: 'unsure', [places[3] as string]: 'sound' }),
    // Put right later in the same drill: it was missed all the same.
    answered({ [places[1] as string]: 'sound' }),
    answered({ [placesOf(other)[0] as string]: 'sound' }),
    answered({ [places[4] as string]: 'missed' }, { voided: 'mis-tap' }),
  ];
  const lines = procedureLines(told, [merrow], memoryOf([]), null);
  // Of the other procedure all was right.
  expect(lines.map(({ procedure }) => procedure)).toEqual([long]);
  const [line] = lines;
  expect(line?.steps.map(({ place }) => place)).toEqual(places);
  expect(line?.steps.map(({ now }) => now)).toEqual(
    places.map((_, i) => (i === 1 ? 'missed' : i === 2 ? 'unsure' : i === 3 ? 'right' : null)),
  );
  expect(line?.steps.map(({ weak }) => weak)).toEqual(places.map((_, i) => i === 1 || i === 2));
  expect(line?.steps.every(({ chance }) => chance === null)).toBe(true);
  expect(line?.weakest).toBeNull();
});

test('with a forecast: chances on the day, the weakest named, at most four for weakness, what was missed besides', () => {
  const places = placesOf(long);
  const stability = [900, 9, 3, 5, 7, 6, 900];
  const memory = memoryOf([
    ...places.slice(0, 7).map((key, i) => [item(key), known(stability[i] ?? 1, 0)] as const),
    ...placesOf(other).map((key) => [item(key), known(900, 0)] as const),
  ]);
  const told = [answered({ [places[0] as string]: 'missed' }), answered({ [placesOf(other)[0] as string]: 'sound' })];
  const lines = procedureLines(told, [merrow], memory, DAY + 20);
  // The one with the weakest step first; one where all will do has its weakest named all the same.
  expect(lines.map(({ procedure }) => procedure)).toEqual([long, other]);
  const [line, good] = lines;
  expect(line?.weakest).toMatchObject({ place: places[2] });
  expect(line?.weakest?.chance).toBeCloseTo(chanceAfter(3, 20), 12);
  expect(line?.steps.flatMap(({ weak }, i) => (weak ? [i] : []))).toEqual([0, 2, 3, 4, 5]);
  expect(line?.steps[7]?.chance ?? null).toBeNull();
  expect(good?.steps.filter(({ weak }) => weak)).toHaveLength(1);
});

test('who does a step stands beside it', () => {
  const places = placesOf(long);
  const [line] = procedureLines([answered({ [places[0] as string]: 'missed' })], [merrow], memoryOf([]), null);
  const called = (by: string | undefined) =>
    ({ both: 'Both', captain: 'Captain', cabin: 'Cabin crew' })[by ?? ''] ?? by;
  expect(line?.steps.map(({ by }) => by)).toEqual(stepsOf(long).map(({ step }) => called(step.by)));
  // As it is called, not as the file names it: a step of the line-up is for both.
  const takeOff = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
  const shared = [...takeOff.items.values()].find(({ group, facet }) => group === 'line-up' && facet === 'place');
  const one = { ...answered({ [shared?.key ?? '']: 'missed' }), deck: takeOff.ref };
  const all = procedureLines([one], [takeOff], memoryOf([]), null)[0]?.steps.flatMap(({ by }) => by ?? []) ?? [];
  expect(all).toContain('Both');
  expect(all).not.toContain('both');
});
