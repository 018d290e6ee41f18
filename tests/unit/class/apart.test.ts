import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { rightAnswers } from '../../../src/class/answers.ts';
import { type Named, namesIn, toldApart } from '../../../src/class/apart.ts';
import { resolve } from '../../../src/deck/resolve.ts';
import { classOf } from '../../helpers/class-reports.ts';

const named = (key: string, label: string, ...by: string[]): Named => ({
  key,
  label,
  by: by.map((said) => () => said),
});

test('what reads the same gets what tells it apart, and no more than that', () => {
  const all = [
    named('a', 'Gear up', 'its place', 'Climb', ''),
    named('b', 'Gear up', 'its place', 'Go-around', ''),
    named('c', 'Flaps', 'its place', 'Climb', ''),
    named('d', 'Flaps', 'the words', 'Climb', ''),
    named('e', 'Flaps', 'the words', 'Climb', 'version 1.0.0'),
    named('f', 'Lights', 'its place', 'Climb', ''),
    named('g', 'Brakes', 'its place', 'Climb', ''),
    named('h', 'Brakes', 'its place', 'Climb', ''),
  ];
  expect([...toldApart(all).entries()].sort()).toEqual([
    ['a', 'Gear up · Climb'],
    ['b', 'Gear up · Go-around'],
    ['c', 'Flaps · its place'],
    ['d', 'Flaps · the words'],
    ['e', 'Flaps · the words · version 1.0.0'],
    ['f', 'Lights'],
    ['g', 'Brakes (1 of 2)'],
    ['h', 'Brakes (2 of 2)'],
  ]);
});

test('in no demonstration deck two items have one name; what differs by situation says what it comes after, or where', async () => {
  let same = 0;
  const all: string[] = [];
  for (const file of readdirSync('decks').filter((name) => name.endsWith('.deck.json'))) {
    const { deck, stored } = await classOf(file);
    const flown = Object.fromEntries((deck.variants ?? []).map(({ id, options }) => [id, Object.keys(options)]));
    const resolved = resolve(deck, stored.contentId, flown);
    const items = [...resolved.items.values()];
    const labels = toldApart(items.map(namesIn(resolved, '')));
    expect(new Set(labels.values()).size, file).toBe(items.length);
    all.push(...labels.values());
    same += items.length - new Set(items.map(({ label }) => label)).size;
    // A number is the last way out.
    expect([...labels.values()].filter((label) => /\(\d+ of \d+\)$/.test(label) && !/rule \d/.test(label))).toEqual([]);
  }
  expect(same).toBeGreaterThan(5);
  // A callout by its words, as trainees are told it once it was answered.
  expect(all.filter((label) => /at step \d/.test(label))).toEqual([]);
  expect(all.filter((label) => label.startsWith('Callout “')).length).toBeGreaterThan(20);
  const of = (begins: string) => all.filter((label) => label.startsWith(begins));
  expect(of('Line-up: Press the take-off configuration test (Calder Coast Air)')).toEqual([
    'Line-up: Press the take-off configuration test (Calder Coast Air) · before Two chimes to the cabin',
    'Line-up: Press the take-off configuration test (Calder Coast Air) · before Both packs OFF',
  ]);
  expect(of('Engine failure after V1: “Engine drill”')).toContain(
    'Engine failure after V1: “Engine drill” · where engine fire warning',
  );
});

test('right answers: a value with its unit, each rule with when it holds, nothing for what is computed', async () => {
  const { deck, stored } = await classOf('merrow-takeoff.deck.json');
  const flown = Object.fromEntries((deck.variants ?? []).map(({ id, options }) => [id, Object.keys(options)]));
  const resolved = resolve(deck, stored.contentId, flown);
  const right = rightAnswers(resolved);
  const of = (facet: string) => [...resolved.items.values()].filter((one) => one.facet === facet);
  expect(of('value').length).toBeGreaterThan(5);
  for (const { key } of of('value')) expect(right.get(key)).toMatch(/\S/);
  const rules = of('rule').map(({ key }) => right.get(key) ?? '');
  expect(rules.length).toBeGreaterThan(3);
  for (const said of rules) expect(said).toContain(', where ');
  for (const { key } of of('number')) expect(right.has(key)).toBe(false);
  for (const facet of ['place', 'cue', 'crew', 'words']) {
    expect(of(facet).length).toBeGreaterThan(5);
    for (const { key } of of(facet)) expect(right.get(key)).toMatch(facet === 'words' ? /^“.+”$/ : /\S/);
  }
});
