import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { resolve } from '../../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import { foldText } from '../../../src/lib/fold-text.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Marked, NextDetail, NextShown, Offer } from '../../../src/model/form.ts';
import type { PartialOrder, Resolved, Situation } from '../../../src/subjects/resolved.ts';
import { flow, marksOf, resolved, word } from './small-decks.ts';

const nexts = (all: Resolved): Offer[] => offers(all, null, 1).filter((o) => o.form === 'next');
const about = (all: Resolved, step: string): Offer => {
  const found = nexts(all).find((o) => o.about.part?.[0] === step);
  if (!found) throw new Error(`nothing about ${step}`);
  return found;
};
const shownOf = (all: Resolved, offer: Offer, seed = 1): NextShown => {
  const shown = draw(all, offer, seed);
  if (shown?.form !== 'next') throw new Error('nothing drawn');
  return shown;
};
const detailOf = ({ detail }: Marked): NextDetail => {
  if (detail.form !== 'next') throw new Error(detail.form);
  return detail;
};
const strangers = [20, 21, 22].map((i) => `Not ${word(i)}`);

/** Some sets of steps that may be done, each with all that must come before: every one, where there are few. */
const doneSets = ({ n, before }: PartialOrder): boolean[][] => {
  const out: boolean[][] = [];
  const visit = (i: number, done: readonly boolean[]): void => {
    if (out.length > 4000) return;
    if (i === n) {
      out.push([...done]);
      return;
    }
    // In authored order, which is a right one: what must come before i has been decided.
    visit(i + 1, [...done, false]);
    if (before.every((row, a) => !row[i] || done[a])) visit(i + 1, [...done, true]);
  };
  visit(0, []);
  return out;
};

/** What may come next in some course of events in which the steps given are done and the one asked is not. */
const mayBeNext = (situation: Situation, given: readonly number[], k: number): Set<number> => {
  const { order } = situation;
  const found = new Set<number>();
  for (const done of doneSets(order)) {
    if (done[k] || given.some((c) => !done[c])) continue;
    // The step asked can be done now.
    if (order.before.some((row, a) => row[k] && !done[a])) continue;
    for (let i = 0; i < order.n; i++) if (!done[i] && order.before.every((row, a) => !row[i] || done[a])) found.add(i);
  }
  return found;
};

describe('which step comes next', () => {
  const all = resolved({ procedures: [flow(9, { strangers })] });

  test('is asked of each step once it was right once, with four choices, a stranger among them', () => {
    const list = nexts(all);
    expect(list.map((o) => o.about.part)).toEqual([...Array(9).keys()].map((i) => [`s${i}`]));
    for (const o of list) {
      expect([o.needs, o.g, o.rows, o.proves.length]).toEqual(['right-once', 0.25, 4, 1]);
      for (const seed of [1, 2, 3, 4, 5]) {
        const { choices } = shownOf(all, o, seed);
        expect(new Set(choices.map(({ id }) => id)).size).toBe(4);
        expect(choices.filter(({ id }) => id === o.about.part?.[0])).toHaveLength(1);
        expect(choices.some(({ id }) => id.startsWith('stranger-'))).toBe(true);
      }
    }
  });

  test('gives the last three steps done, in order; of the first step none', () => {
    expect(shownOf(all, about(all, 's5'))).toMatchObject({
      before: [2, 3, 4].map(word),
      ask: 'What comes next?',
      title: 'Flow',
    });
    expect(shownOf(all, about(all, 's1')).before).toEqual([word(0)]);
    expect(shownOf(all, about(all, 's0'))).toMatchObject({ before: [], ask: 'What comes first?' });
  });

  test('the right choice does not always stand in the same place', () => {
    const o = about(all, 's3');
    const places = [...Array(30).keys()].map((seed) =>
      shownOf(all, o, seed).choices.findIndex(({ id }) => id === 's3'),
    );
    expect(new Set(places).size).toBe(4);
  });

  test('right, wrong and Don’t know; a wrong step says what it must come after and before', () => {
    const o = about(all, 's4');
    const shown = shownOf(all, o);
    const right = mark(all, o, shown, { choice: 's4' });
    expect([marksOf(right), right.flawed, right.g]).toEqual([{ 's4.place': 'right' }, false, 0.25]);
    expect(detailOf(right)).toMatchObject({ right: { id: 's4', state: 'right', after: [word(3)], before: [word(5)] } });
    expect(detailOf(right).wrong).toBeUndefined();
    const wrong = mark(all, o, shown, { choice: 's6' });
    expect([marksOf(wrong), wrong.flawed, wrong.g]).toEqual([{ 's4.place': 'wrong' }, true, 0.25]);
    expect(detailOf(wrong).wrong).toMatchObject({ state: 'misplaced', after: [word(5)], before: [word(7)] });
    const stranger = shown.choices.find(({ id }) => id.startsWith('stranger-'));
    const other = mark(all, o, shown, { choice: stranger?.id ?? '' });
    expect(marksOf(other)).toEqual({ 's4.place': 'wrong' });
    expect(detailOf(other).wrong).toMatchObject({ state: 'stranger', text: stranger?.text, after: [], before: [] });
    const told = mark(all, o, shown, null);
    expect([marksOf(told), detailOf(told).wrong]).toEqual([{ 's4.place': 'told' }, undefined]);
  });

  test('what the deck no longer holds is not marked', () => {
    const o = about(all, 's4');
    const shorter = resolved({ procedures: [flow(3, { strangers })] });
    expect(mark(shorter, o, shownOf(all, o), { choice: 's4' }).marks).toEqual({});
    expect(draw(shorter, o, 1)).toBe(null);
  });

  test('steps done together are never set against each other', () => {
    const steps = [
      { id: 'a', do: 'One' },
      {
        together: true,
        steps: [
          { id: 'b', do: 'Two' },
          { id: 'c', do: 'Three' },
        ],
      },
      { id: 'd', do: 'Four' },
      { id: 'e', do: 'Five' },
      { id: 'f', do: 'Six' },
    ];
    const both = resolved({ procedures: [flow(steps)] });
    for (const seed of [1, 2, 3, 4]) {
      expect(shownOf(both, about(both, 'b'), seed).choices.map(({ id }) => id)).not.toContain('c');
      expect(shownOf(both, about(both, 'c'), seed).choices.map(({ id }) => id)).not.toContain('b');
    }
  });

  test('a step that reads like one that may come next is no wrong choice', () => {
    const steps = ['Alpha', 'Set both', 'Beta', 'Set both', 'Gamma', 'Delta'].map((text, i) => ({
      id: `s${i}`,
      do: text,
    }));
    const twice = resolved({ procedures: [flow(steps)] });
    const o = about(twice, 's1');
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const texts = shownOf(twice, o, seed).choices.map(({ text }) => text);
      expect(texts.filter((text) => text === 'Set both')).toHaveLength(1);
    }
  });

  test('where there is too little to choose from nothing is asked', () => {
    expect(nexts(resolved({ procedures: [flow(2)] }))).toEqual([]);
    const loose = [
      {
        together: true,
        steps: [0, 1, 2, 3].map((i) => ({ id: `s${i}`, do: word(i) })),
      },
    ];
    expect(nexts(resolved({ procedures: [flow(loose)] }))).toEqual([]);
  });
});

describe.each(readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json')))('%s', (file) => {
  test('never two right choices, whatever was done before the steps given', () => {
    const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
    const flown = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
    const all = resolve(deck, 'd'.repeat(64), flown);
    for (const o of nexts(all)) {
      const view = all.views.find(({ id }) => id === o.variant);
      const situation = view?.procedures
        .find(({ procedure }) => procedure.id === o.about.thing)
        ?.situations.find(({ id }) => id === o.about.situation) as Situation;
      const indexOf = (id: string) => situation.steps.findIndex(({ step }) => step.id === id);
      const k = indexOf(o.about.part?.[0] ?? '');
      const given = [k - 3, k - 2, k - 1].filter((i) => i >= 0);
      const valid = mayBeNext(situation, given, k);
      expect(valid.has(k)).toBe(true);
      const words = new Set(
        [...valid].flatMap((i) => {
          const { text, step } = situation.steps[i] as Situation['steps'][number];
          return [text, ...(step.alsoDo ?? []), ...(step.alsoSay ?? [])].map(foldText);
        }),
      );
      for (const seed of [1, 2, 3]) {
        const { choices } = shownOf(all, o, seed);
        expect(choices).toHaveLength(o.rows ?? 0);
        expect(new Set(choices.map(({ text }) => foldText(text))).size).toBe(choices.length);
        for (const { id } of choices) {
          const i = indexOf(id);
          if (i === k) continue;
          expect(valid.has(i), `${o.about.thing}: ${id} instead of ${o.about.part}`).toBe(false);
          if (i >= 0) expect(words).not.toContain(foldText((situation.steps[i] as Situation['steps'][number]).text));
        }
      }
    }
  });
});
