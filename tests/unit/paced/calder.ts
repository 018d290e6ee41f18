import { readFileSync } from 'node:fs';
import { resolve } from '../../../src/deck/resolve.ts';
import type { Deck } from '../../../src/model/deck.ts';

const MERROW = JSON.parse(readFileSync('decks/merrow-takeoff.deck.json', 'utf8')) as Deck;

/** The demonstration deck as one operator flies it. Apart from runs.ts, which a page in the browser takes in too. */
export const calder = resolve(MERROW, 'a'.repeat(64), { engine: ['tk11'], operator: ['calder'] });
