import { expect, test } from 'vitest';
import { checkText } from '../../../../src/deck/check.ts';
import { apply, type Change, valueAt } from '../../../../src/draft/change.ts';
import { rename } from '../../../../src/draft/rename.ts';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import {
  eventBegun,
  isBegun,
  windBegun,
  windDrawn,
  windMissing,
} from '../../../../src/ui/workshop/bench/beginnings.ts';

const deck = (scenario: { readonly [key: string]: Json }, more: { readonly [key: string]: Json } = {}): Json => ({
  format: 1,
  id: 'calder/begun',
  title: 'T',
  version: '1.0.0',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 'a', title: 'A (invented)', basis: 'invented' }],
  scenarios: [{ id: 's', situation: '', draw: {}, asks: [], source: 'a', ...scenario }],
  ...more,
});
const PLACE = '/scenarios/0';
const found = (doc: Json): string[] =>
  checkText(JSON.stringify(doc), { today: '2026-11-25' }).findings.map(({ code, path }) => `${code} ${path}`);

test('wind and runway: a scenario of which the checker has nothing to say', () => {
  const doc = deck({});
  expect(isBegun(doc, PLACE)).toBe(false);
  const begun = apply(doc, windBegun(doc, PLACE));
  expect(isBegun(begun, PLACE)).toBe(true);
  expect(windMissing(begun, PLACE)).toBe(false);
  expect(found(begun)).toEqual([]);
});

test('an event: once its words are filled in, named after them, the checker has nothing to say', () => {
  const doc = deck({});
  let begun = apply(doc, eventBegun(doc, PLACE));
  const steps: readonly ((now: Json) => readonly Change[])[] = [
    (now) => rename(now, `${PLACE}/draw/event/oneOf/event`, 'engine-fire'),
    (now) => rename(now, `${PLACE}/asks/0/choose/options/option`, 'stop'),
    (now) => rename(now, `${PLACE}/asks/0/choose/options/option-2`, 'go'),
  ];
  for (const step of steps) begun = apply(begun, step(begun));
  const filled = JSON.parse(
    JSON.stringify(begun)
      .replace('"engine-fire":""', '"engine-fire":"Engine fire warning"')
      .replace('"stop":""', '"stop":"Stop"')
      .replace('"go":""', '"go":"Go on"'),
  ) as Json;
  expect(valueAt(filled, `${PLACE}/asks/0/choose/rules/0`)).toEqual({
    id: 'rule-1',
    if: 'event == "engine-fire"',
    // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
    then: ['stop'],
  });
  expect(found(filled)).toEqual([]);
});

test('drawn for the picture is what is missing; what is there stays', () => {
  const own = { oneOf: [160, 340], show: 'runway' };
  const doc = deck({ draw: { runway: own, gust: { from: 0, to: 10 } }, let: { tail: '3' }, require: ['gust > 1'] });
  const drawn = apply(doc, windDrawn(doc, PLACE));
  expect(Object.keys(valueAt(drawn, `${PLACE}/draw`) as object)).toEqual(['runway', 'windDir', 'windSpeed', 'gust']);
  expect(valueAt(drawn, `${PLACE}/draw/runway`)).toEqual(own);
  expect(valueAt(drawn, `${PLACE}/let`)).toEqual({
    tail: '3',
    cross: 'abs(crosswind(windDir, windSpeed, runway))',
  });
  expect(valueAt(drawn, `${PLACE}/require`)).toEqual(['gust > 1']);
});

test('a name that the deck has for something else is not taken again', () => {
  const doc = deck({}, { conditions: [{ id: 'cross', label: 'Cross', yes: 'Cross', no: 'Along' }] });
  const drawn = apply(doc, windDrawn(doc, PLACE));
  expect(Object.keys(valueAt(drawn, `${PLACE}/let`) as object)).toEqual(['tail']);
});
