import { readFile } from 'node:fs/promises';
import { resolve } from '../../src/deck/resolve.ts';
import { contentId } from '../../src/exchange/content-id.ts';
import { writeCopy } from '../../src/exchange/saved-copy.ts';
import { toLine } from '../../src/log/line.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { Entry } from '../../src/model/entry.ts';
import type { Flown } from '../../src/subjects/resolved.ts';

const DAY = 86_400_000;
const WRITER = 'practised0000';

export interface PractisedDeck {
  /** Of decks/, read from the root of the project. */
  readonly file: string;
  readonly flown: Flown;
  readonly course: 'fictional' | 'real';
  /** UTC ms. */
  readonly now: number;
  /** Days from now to the check. */
  readonly checkIn: number;
  readonly minutes: number;
  /** Share of the questions that were met, 0..1. */
  readonly met: number;
}

/**
 * A saved copy of a learner who has practised a demonstration deck on two days: each item met was answered three days
 * ago and again yesterday, every seventh wrong.
 */
export const practisedCopy = async (of: PractisedDeck): Promise<string> => {
  const text = await readFile(`decks/${of.file}`, 'utf8');
  const deck = JSON.parse(text) as Deck;
  const hash = await contentId(text);
  const ref = `${deck.id}@${hash.slice(0, 16)}`;
  const lines: string[] = [];
  const write = (time: number, said: object) => {
    const id = `${WRITER}.${lines.length + 1}`;
    lines.push(toLine({ v: 1, id, at: time + lines.length, off: 0, app: 'test', ...said } as Entry));
  };
  const first = of.now - 3 * DAY;
  const check = new Date(of.now + of.checkIn * DAY).toISOString().slice(0, 10);
  write(first, { k: 'deck', deck: ref, state: 'in' });
  write(first, { k: 'set', key: `variants/${deck.id}`, value: of.flown });
  write(first, { k: 'set', key: `check-date/${of.course}`, value: check });
  write(first, { k: 'set', key: `minutes/${of.course}`, value: of.minutes });
  const items = [...resolve(deck, hash, of.flown).items.values()].filter(({ facet }) =>
    ['place', 'value', 'rule', 'number'].includes(facet),
  );
  const met = items.slice(0, Math.round(items.length * of.met));
  for (const day of [first, of.now - DAY])
    for (const [i, { key, thing }] of met.entries())
      write(day, {
        k: 'answer',
        deck: ref,
        form: 'limit',
        about: { thing },
        variant: '',
        shown: {},
        given: null,
        sure: true,
        ms: 6000,
        marks: { [key]: i % 7 === 3 ? 'wrong' : 'right' },
        g: 0,
        mv: 1,
      });
  const { id, version, title, nature } = deck;
  const stored = { ref, id, version, title, nature, contentId: hash, text, installed: first, active: true };
  return writeCopy({ decks: [stored], lines }, { app: 'test', at: of.now });
};
