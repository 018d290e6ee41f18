import { readdirSync, readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import type { Form } from '../../src/forms/contract.ts';
import { mark } from '../../src/forms/registry.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { Given, Marked, Offer, Shown, WordsDetail } from '../../src/model/form.ts';
import type { Resolved, ResolvedProcedure } from '../../src/subjects/resolved.ts';

export const SEEDS = [1, 2, 3, 4, 5];
export const files = readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json'));

/** A deck that is shipped, flown in all variants. */
export const flownBy = (file: string): Resolved => {
  const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
  return resolve(
    deck,
    'd'.repeat(64),
    Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)])),
  );
};

export const offersBy = (form: Form<never, never>, all: Resolved): Offer[] =>
  [...form.offers(all, null, 1)].filter((offer) => offer !== null);

export const procedureOf = (all: Resolved, { about, variant }: Offer): ResolvedProcedure =>
  all.views
    .find(({ id }) => id === variant)
    ?.procedures.find(({ procedure }) => procedure.id === about.thing) as ResolvedProcedure;

/** Marks with Don't know, and the same again from the log. */
export const toldAll = (all: Resolved, offer: Offer, shown: Shown, where: string): void => {
  const told = mark(all, offer, shown, null);
  expect(new Set(Object.values(told.marks)), where).toEqual(new Set(['told']));
  expect(Object.keys(told.marks).sort(), where).toEqual([...offer.proves].sort());
};

/** As marked, and the same from what the log holds. */
export const marked = (all: Resolved, offer: Offer, shown: Shown, given: Given, where: string): Marked => {
  const now = mark(all, offer, shown, given);
  const { form, about, variant } = offer;
  const kept = JSON.parse(JSON.stringify({ form, about, variant, shown, given }));
  expect(mark(all, { ...kept, proves: [] }, kept.shown, kept.given), where).toEqual(now);
  return now;
};

export const wordsDetail = ({ detail }: Marked): WordsDetail => {
  if (detail.form !== 'callout' && detail.form !== 'list') throw new Error(detail.form);
  return detail;
};

/** Letters and digits alone. */
export const letters = (text: string): string => text.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '');
