import { describe, expect, test } from 'vitest';
import { allOffers, askedItems } from '../../../src/drill/world.ts';
import { itemSeconds, planRows } from '../../../src/memory/plan/input.ts';
import { emptyMemory } from '../../../src/memory/step.ts';
import { LEFT_OUT } from '../../../src/subjects/resolved.ts';
import { itemsAsked, knowsAll, play, practiceOf, resolvedDeck } from './practice.ts';

const FLOWN = { engine: ['tk11'], operator: ['calder', 'fellwater'] };
const CLOSED = ['noise-climb', 'take-off-roll', 'stabilise-n1', 'stick-input'];
const all = resolvedDeck('merrow-takeoff', FLOWN);
const part = resolvedDeck('merrow-takeoff', { ...FLOWN, [LEFT_OUT]: CLOSED.map((id) => `#${id}`) });
const memory = emptyMemory();

/** Keys that only something closed holds. */
const runsOf = ({ views }: typeof all, closed: boolean) =>
  new Set(
    views.flatMap(({ procedures }) =>
      procedures
        .filter(({ procedure: { id } }) => CLOSED.includes(id) === closed)
        .flatMap(({ situations }) => situations.flatMap(({ steps }) => steps.flatMap(({ place }) => place ?? []))),
    ),
  );
const own = [...runsOf(all, true)].filter((key) => !runsOf(all, false).has(key));
const shared = [...runsOf(all, true)].filter((key) => runsOf(all, false).has(key));
const things = [...all.items.values()].filter(({ thing }) => CLOSED.includes(thing)).map(({ key }) => key);

describe('what is not yet open', () => {
  test('is no item, no question, and no row of a plan', () => {
    // Else this would prove nothing.
    expect(own.length).toBeGreaterThan(5);
    expect(shared.length).toBeGreaterThan(0);
    expect(things.length).toBeGreaterThan(2);
    const closed = new Set([...own, ...things]);
    for (const key of closed) expect(part.items.has(key), key).toBe(false);
    const offers = allOffers({ decks: [part], memory }).map(({ offer }) => offer);
    expect(offers.length).toBeGreaterThan(100);
    expect(offers.filter(({ proves }) => proves.some((key) => closed.has(key)))).toEqual([]);
    expect(offers.every(({ proves }) => proves.every((key) => part.items.has(key)))).toBe(true);
    const rows = planRows(part.items.values(), memory, itemSeconds(offers), 100);
    expect(rows.keys.filter((key) => closed.has(key))).toEqual([]);
    expect(rows.keys.length).toBeLessThan(
      planRows(
        all.items.values(),
        memory,
        itemSeconds(allOffers({ decks: [all], memory }).map((one) => one.offer)),
        100,
      ).keys.length,
    );
  });

  test('takes nothing from the rest: what another procedure shares with it is asked under the same key', () => {
    for (const key of shared) expect(part.items.has(key), key).toBe(true);
    const rest = [...all.items.keys()].filter((key) => !own.includes(key) && !things.includes(key));
    const gone = rest.filter((key) => !part.items.has(key));
    // Cues, crew and words of its own steps.
    expect(gone.filter((key) => !/\.(cue|crew|words)~/.test(key))).toEqual([]);
    expect([...part.items.keys()].every((key) => all.items.has(key))).toBe(true);
  });

  test('a number that is not yet open still stands where a step waits for it', () => {
    const [view] = part.views;
    expect(view?.limits.find(({ limit }) => limit.id === 'stabilise-n1')?.cases.length).toBeGreaterThan(0);
    expect(view?.limitValue('stabilise-n1')).toBe(all.views[0]?.limitValue('stabilise-n1'));
  });

  test('is neither read nor asked in days of long drills, known or not, with everything else asked', {
    timeout: 120_000,
  }, () => {
    const practice = practiceOf([part]);
    const read = new Set<string>();
    const asked = new Set<string>();
    for (let day = 0; day < 4; day++) {
      const played = play(practice, day, knowsAll, { seconds: 2400, course: 'fictional' });
      for (const keys of itemsAsked(played)) for (const key of keys) asked.add(key);
    }
    for (const entry of practice.entries) if (entry.k === 'read') for (const thing of entry.about) read.add(thing);
    expect([...asked].filter((key) => own.includes(key) || things.includes(key))).toEqual([]);
    expect([...read].filter((thing) => CLOSED.includes(thing))).toEqual([]);
    const openSteps = new Set([...part.items.values()].map(({ thing }) => thing));
    const ownSteps = own.flatMap((key) => all.items.get(key)?.thing ?? []).filter((thing) => !openSteps.has(thing));
    expect(ownSteps.length).toBeGreaterThan(3);
    expect([...read].filter((thing) => ownSteps.includes(thing))).toEqual([]);
    const open = askedItems([part]).filter(({ facet }) => facet !== 'cue' && facet !== 'crew' && facet !== 'words');
    expect(asked.size).toBeGreaterThan(open.length / 2);
  });
});
