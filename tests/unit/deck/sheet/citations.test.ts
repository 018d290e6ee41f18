import { expect, test } from 'vitest';
import { citationsOf, uncitedOf } from '../../../../src/deck/sheet/citations.ts';
import { BASE, changed, type Loose } from '../../../fixtures/decks/base.ts';

const of = (change: (d: Loose) => void = () => {}) => citationsOf(changed(change));
const find = (list: ReturnType<typeof of>, key: string) => list.find((one) => one.key === key);

test('steps cite what their procedure cites, unless they name a place of their own', () => {
  const list = of((d) => {
    d.procedures[0].steps[2].source = 'som#3.2.4';
    d.procedures[0].steps[2].edition = 'Rev 3';
    d.procedures[0].edition = 'Rev 2';
  });
  expect(find(list, 'procedure roll')).toMatchObject({
    source: 'som',
    place: '3.2',
    holder: '/procedures/0',
    edition: 'Rev 2',
  });
  expect(find(list, 'step announce')).toMatchObject({
    path: '/procedures/0/steps/0',
    place: '3.2',
    holder: '/procedures/0',
    edition: 'Rev 2',
    says: [
      ['', '“Take-off”'],
      ['who', 'PF'],
      ['cue', 'Clearance read back'],
    ],
  });
  expect(find(list, 'step hundred')).toMatchObject({
    place: '3.2.4',
    holder: '/procedures/0/steps/2',
    edition: 'Rev 3',
  });
  expect(find(list, 'procedure climb')).toMatchObject({ place: '' });
});

test('a plain limit and a table are one line, a limit with cases one for each', () => {
  const keys = of().map((one) => one.key);
  expect(keys).toContain('limit pause');
  expect(keys).toContain('limit factor');
  expect(keys).not.toContain('limit retract');
  expect(keys.filter((key) => key.startsWith('limit retract '))).toEqual(['limit retract one', 'limit retract two']);
  expect(find(of(), 'limit retract one')).toMatchObject({
    label: 'Limit: Speed to retract (Flaps 1)',
    path: '/limits/3/cases/0',
    holder: '/limits/3',
    says: [['', 'at least 150\u00a0kt']],
  });
});

test('a scenario as a whole, its numbers, and the rules of its choices', () => {
  const keys = of()
    .map((one) => one.key)
    .filter((key) => key.includes('wind'));
  expect(keys).toEqual(['scenario wind', 'ask wind.cross', 'rule wind.input.strong', 'rule wind.input.normal']);
  const list = of((d) => {
    d.scenarios[0].asks[1].source = 'som#9';
    delete d.scenarios[0].source;
  });
  expect(find(list, 'rule wind.input.strong')).toMatchObject({ place: '9', holder: '/scenarios/0/asks/1' });
  expect(find(list, 'ask wind.cross')).toBeUndefined();
});

test('every thing of a deck that names a source is there once', () => {
  const list = of();
  expect(new Set(list.map((one) => one.key)).size).toBe(list.length);
  const steps = JSON.stringify(BASE.procedures).match(/"(do|say)":/g)?.length;
  expect(list.filter((one) => one.key.startsWith('step '))).toHaveLength(steps as number);
});

test('what names no source is there too: a whole procedure, a limit, single steps', () => {
  const keys = (change: (d: Loose) => void = () => {}) => uncitedOf(changed(change)).map(({ key }) => key);
  const before = keys();
  const added = (change: (d: Loose) => void) => keys(change).filter((key) => !before.includes(key));
  expect(added((d) => delete d.procedures[0].source)).toEqual(['procedure roll']);
  expect(added((d) => delete d.limits[0].source)).toEqual(['limit crosscheck']);
  expect(
    added((d) => {
      delete d.procedures[0].source;
      d.procedures[0].steps[2].source = 'som#3.2.4';
    }),
  ).toContain('step announce');
  // Each thing is either cited or not.
  const cited = new Set(of().map((one) => one.key));
  expect(before.filter((key) => cited.has(key))).toEqual([]);
  expect(uncitedOf(changed((d) => delete d.procedures[0].source)).at(0)).toMatchObject({
    path: '/procedures/0',
    label: expect.stringMatching(/^Procedure: /),
  });
});
