import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import { draw, offers } from '../../src/forms/registry.ts';
import { fitting } from '../../src/forms/run/strangers.ts';
import { foldText } from '../../src/lib/fold-text.ts';
import { isTwin } from '../../src/lib/twin.ts';
import { type Deck, isBlock, isUse, type Node, type Procedure, type Step } from '../../src/model/deck.ts';
import type { BeforeShown, Choice, Offer, RunShown, Shown } from '../../src/model/form.ts';
import { stepText } from '../../src/subjects/procedure/words.ts';
import type { Flown, Resolved, ResolvedProcedure, Situation, View } from '../../src/subjects/resolved.ts';
import { flow, resolved, word } from '../unit/forms/small-decks.ts';
import { files } from './words-decks.ts';

/*
 * No wrong choice is in truth right: over every deck that is shipped, flown in all variants and in each combination alone.
 * Where a choice comes from is worked out here from the authored deck and from what the views hold.
 */

const SEEDS = [1, 2, 3, 4, 5, 6];

interface Flying {
  readonly name: string;
  readonly deck: Deck;
  readonly all: Resolved;
}

const flyings: Flying[] = files.flatMap((file) => {
  const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
  const axes = (deck.variants ?? []).map(({ id, options }) => ({ id, options: Object.keys(options) }));
  let alone: Flown[] = [{}];
  for (const { id, options } of axes)
    alone = alone.flatMap((one) => options.map((option) => ({ ...one, [id]: [option] })));
  const every: Flown = Object.fromEntries(axes.map(({ id, options }) => [id, options]));
  return (axes.length === 0 ? [every] : [every, ...alone]).map((flown) => ({
    name: `${file} ${JSON.stringify(flown)}`,
    deck,
    all: resolve(deck, 'd'.repeat(64), flown),
  }));
});

const viewOf = ({ all }: Flying, { variant }: Offer): View => all.views.find(({ id }) => id === variant) as View;
const procedureOf = (flying: Flying, offer: Offer): ResolvedProcedure =>
  viewOf(flying, offer).procedures.find(({ procedure }) => procedure.id === offer.about.thing) as ResolvedProcedure;

/** Steps that a procedure has in any situation of a view. */
const stepsOf = ({ situations }: ResolvedProcedure): Step[] =>
  situations.flatMap(({ steps }) => steps.map(({ step }) => step));
const textsOf = (steps: readonly Step[]): Set<string> =>
  new Set(steps.flatMap((step) => [stepText(step), ...(step.alsoDo ?? []), ...(step.alsoSay ?? [])]).map(foldText));

/** Steps as written, whatever they hang on, blocks used by name too. */
function written(deck: Deck, nodes: readonly Node[]): Step[] {
  const blocks = new Map<string, Node>();
  const name = (list: readonly Node[]): void => {
    for (const node of list) {
      if (isUse(node) || !isBlock(node)) continue;
      if (node.id !== undefined) blocks.set(node.id, node);
      for (const lane of node.lanes ?? [node.steps ?? []]) name(lane);
    }
  };
  for (const { steps } of deck.procedures ?? []) name(steps);
  const flat = (list: readonly Node[]): Step[] =>
    list.flatMap((node) => {
      if (isUse(node)) return flat([blocks.get(node.use) as Node]);
      return isBlock(node) ? (node.lanes ?? [node.steps ?? []]).flatMap(flat) : [node];
    });
  return flat(nodes);
}

const authored = ({ procedure }: ResolvedProcedure): Set<string> =>
  new Set((procedure.strangers ?? []).map((one) => foldText(typeof one === 'string' ? one : one.text)));

/** Strangers among what is shown, in the words of the deck, folded; and where. */
function eachStranger(
  flying: Flying,
  is: (offer: Offer) => boolean,
  check: (text: string, offer: Offer, where: string) => void,
): number {
  let count = 0;
  for (const offer of offers(flying.all, null, 1).filter(is)) {
    const p = procedureOf(flying, offer);
    for (const seed of SEEDS) {
      const shown = draw(flying.all, offer, seed);
      const rows: readonly Choice[] =
        shown === null
          ? []
          : 'chips' in shown
            ? (shown as RunShown).chips
            : (shown as Extract<Shown, { choices: unknown }>).choices;
      for (const { id } of rows) {
        const n = /^stranger-(\d+)$/.exec(id)?.[1];
        if (n === undefined) continue;
        count += 1;
        const text = p.strangers[Number(n)]?.text ?? '';
        check(foldText(text), offer, `“${text}” ${offer.form} ${JSON.stringify(offer.about)} ${offer.variant} ${seed}`);
      }
    }
  }
  return count;
}

describe.each(flyings)('$name', (flying) => {
  const order = (flying.deck.procedures ?? []).map(({ id }) => id);
  const rank = ({ procedure }: ResolvedProcedure): number => order.indexOf(procedure.id);

  test('among the steps of a run stands nothing that reads like one of them but for a letter, unless the author wrote it', () => {
    let tried = 0;
    for (const offer of offers(flying.all, null, 1).filter(({ form }) => form === 'run')) {
      const p = procedureOf(flying, offer);
      const own = authored(p);
      const real = p.situations
        .filter(({ id }) => id === (offer.about.situation ?? ''))
        .flatMap(({ steps }) => steps.map(({ text }) => foldText(text)));
      const odd = fitting(p, p.situations.find(({ id }) => id === (offer.about.situation ?? '')) as Situation);
      for (const { text } of odd.filter((one) => !own.has(foldText(one.text)))) {
        tried += 1;
        expect(
          real.filter((one) => isTwin(one, foldText(text))),
          `“${text}” in ${offer.about.thing}`,
        ).toEqual([]);
      }
    }
    expect(tried > 0 || flying.name.startsWith('wind')).toBe(true);
  });

  test('before a step stands no wrong choice that an earlier procedure has', () => {
    eachStranger(
      flying,
      ({ form }) => form === 'before',
      (text, offer, where) => {
        const p = procedureOf(flying, offer);
        // What is done in other circumstances, and so not in those shown.
        if (textsOf(stepsOf(p)).has(text)) return;
        const others = viewOf(flying, offer).procedures;
        const has = (one: ResolvedProcedure): boolean => textsOf(stepsOf(one)).has(text);
        expect(others.filter((one) => rank(one) < rank(p) && has(one)).map(rank), where).toEqual([]);
        expect(authored(p).has(text) || others.some((one) => rank(one) > rank(p) && has(one)), where).toBe(true);
      },
    );
  });

  test('beside the step of a branch stand those of other circumstances, and what the author wrote', () => {
    eachStranger(
      flying,
      ({ form, about }) => form === 'rule' && about.way === 'branch',
      (text, offer, where) => expect(authored(procedureOf(flying, offer)).has(text), where).toBe(true),
    );
  });

  test('no step comes from a procedure, or hangs on a variant, that is not flown, nor from one that does the same', () => {
    const count = eachStranger(
      flying,
      ({ form }) => form === 'run' || form === 'next' || form === 'before',
      (text, offer, where) => {
        const p = procedureOf(flying, offer);
        const own = written(flying.deck, p.procedure.steps);
        if (authored(p).has(text) || textsOf(own).has(text)) return;
        const from = viewOf(flying, offer).procedures.filter((one) => textsOf(stepsOf(one)).has(text));
        expect(from, where).not.toEqual([]);
        const isApart = (one: ResolvedProcedure): boolean =>
          written(flying.deck, one.procedure.steps).every((step) => !own.includes(step));
        expect(from.some(isApart), where).toBe(true);
      },
    );
    if ((flying.deck.procedures ?? []).length > 0) expect(count).toBeGreaterThan(100);
  });

  test('of cues no two name one moment', () => {
    for (const offer of offers(flying.all, null, 1).filter(({ form }) => form === 'cue')) {
      const { situations } = procedureOf(flying, offer);
      for (const seed of SEEDS) {
        const shown = draw(flying.all, offer, seed) as { choices: readonly Choice[] } | null;
        const asked = offer.about.part?.[0];
        for (const { id } of shown?.choices ?? [])
          for (const {
            steps,
            order: { covers, before },
          } of situations) {
            const [i, k] = [id, asked].map((one) => steps.findIndex(({ step }) => step.id === one)) as [number, number];
            if (i === k || i < 0 || k < 0) continue;
            const words = (at: number): string | undefined => steps[at]?.step.cue?.text;
            const where = `${id} beside ${JSON.stringify(offer.about)} ${offer.variant} ${seed}`;
            const leads = (a: number, b: number): boolean => covers.some(([one, next]) => one === a && next === b);
            if (offer.about.way === 'trigger') {
              if (leads(i, k)) expect(words(k), where).toBe(undefined);
              if (leads(k, i)) expect(words(i), where).toBe(undefined);
            }
            const behind = (b: number): number[] => covers.filter(([, next]) => next === b).map(([one]) => one);
            const isBeside = before[i]?.[k] !== true && before[k]?.[i] !== true;
            if (isBeside && words(i) !== undefined && words(k) !== undefined)
              expect(behind(i), where).not.toEqual(behind(k));
          }
      }
    }
  });
});

test('flown for one operator alone: what only the other has is no stranger of a neighbour', () => {
  const of = (name: string) => flyings.find((one) => one.name.startsWith(name)) as Flying;
  const alone = of('merrow-takeoff.deck.json {"engine":["tk11"],"operator":["calder"]}');
  const strangers = alone.all.views.flatMap(({ procedures }) => procedures.flatMap((p) => p.strangers));
  expect(strangers.map(({ text }) => text)).not.toContain('Lower the nose and let the speed build');
  expect(strangers.map(({ text }) => text)).toContain('Landing lights OFF');
});

describe('strangers of a small deck', () => {
  const variants = [{ id: 'operator', label: 'Operator', options: { a: 'A', b: 'B' } }];
  const row = (from: number, name: string): Step[] =>
    [0, 1, 2, 3].map((i) => ({ id: `${name}${i}`, do: word(from + i) }));
  const strangersOf = (id: string, procedures: readonly Procedure[], flown: Flown = { operator: ['a'] }) =>
    resolved({ variants, procedures }, flown).views[0]?.procedures.find(({ procedure }) => procedure.id === id)
      ?.strangers ?? [];
  const texts = (list: readonly { readonly text: string }[]) => list.map(({ text }) => text);

  test('a neighbour that is not flown, or not known to be, is passed over; so is a step of it', () => {
    const one = flow(row(0, 'x'), { id: 'x' });
    const theirs = flow(row(4, 'y'), { id: 'y', when: { operator: 'b' } });
    const [first, ...rest] = row(8, 'z');
    const last = flow([{ ...(first as Step), when: { operator: 'b' } }, ...rest], { id: 'z' });
    expect(texts(strangersOf('x', [one, theirs, last]))).toEqual(rest.map(stepText));
    expect(texts(strangersOf('x', [one, theirs, last], { operator: ['b'] }))).toEqual(row(4, 'y').map(stepText));
    expect(texts(strangersOf('x', [one, theirs, last], {}))).toEqual(rest.map(stepText));
  });

  test('one that uses a block of this one does the same another way: the next one beyond it stands in', () => {
    const one = flow([{ id: 'block', steps: row(0, 'x') }], { id: 'x' });
    const same = flow([{ use: 'block' }, ...row(4, 'y')], { id: 'y' });
    const last = flow(row(8, 'z'), { id: 'z' });
    expect(texts(strangersOf('x', [one, same, last]))).toEqual(row(8, 'z').map(stepText));
    expect(texts(strangersOf('y', [last, one, same]))).toEqual(row(8, 'z').map(stepText));
  });

  test('what an earlier procedure has stands before no step, whoever else has it or wrote it', () => {
    const one = flow(row(0, 'x'), { id: 'x' });
    const next = flow(row(4, 'y'), { id: 'y', strangers: [word(0), 'Nothing at all'] });
    const last = flow([...row(8, 'z'), { id: 'again', do: word(1) }], { id: 'z' });
    const all = resolved({ procedures: [one, next, last] });
    const shown = offers(all, null, 1)
      .filter(({ form, about }) => form === 'before' && about.thing === 'y')
      .flatMap((offer) => SEEDS.flatMap((seed) => (draw(all, offer, seed) as BeforeShown).choices));
    expect(shown.length).toBeGreaterThan(0);
    const ids = new Set(shown.map(({ text }) => text));
    for (const step of row(0, 'x')) expect(ids).not.toContain(stepText(step));
    expect(ids).toContain('Nothing at all');
  });

  test('a neighbour that goes before is no wrong choice before a step, one that comes after is', () => {
    const first = flow(row(0, 'x'), { id: 'x' });
    const asked = flow(row(4, 'y'), { id: 'y' });
    const all = resolved({ procedures: [first, asked] });
    expect(offers(all, null, 1).filter(({ form, about }) => form === 'before' && about.thing === 'y')).toEqual([]);
    expect(
      offers(all, null, 1).filter(({ form, about }) => form === 'before' && about.thing === 'x').length,
    ).toBeGreaterThan(0);
  });
});
