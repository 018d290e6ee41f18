import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { resolve } from '../../../src/deck/resolve.ts';
import { columnHeads, type PrintRow, procedureRows } from '../../../src/drill/print/procedure.ts';
import { letter, questionSheet } from '../../../src/drill/print/questions.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import type { Deck } from '../../../src/model/deck.ts';
import { BASE, changed } from '../../fixtures/decks/base.ts';

const NONE = '0'.repeat(64);
const deckOf = (file: string) => JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
const first = (deck: Deck) =>
  resolve(
    deck,
    NONE,
    Object.fromEntries((deck.variants ?? []).map(({ id, options }) => [id, Object.keys(options).slice(0, 1)])),
  );
const FILES = ['merrow-takeoff', 'merrow-abnormal', 'public-rules', 'wind-altimetry'].map(
  (name) => `${name}.deck.json`,
);

const linesOf = (rows: readonly PrintRow[]): string[] =>
  rows.flatMap((row) => ('side' in row ? [row.line.id] : row.lanes.flatMap(linesOf)));

const rowsOf = (deck: Deck, procedure = 0) => {
  const resolved = first(deck);
  const [view] = resolved.views;
  const found = view?.procedures[procedure];
  if (view === undefined || found === undefined) throw new Error('no such procedure');
  return procedureRows(resolved, view, found);
};

describe('a procedure on paper', () => {
  const withSteps = (steps: unknown[]) =>
    changed((d) => {
      d.procedures = [{ id: 'p', title: 'P', done: 'memory', source: 'som', steps }];
    }) as unknown as Deck;

  test('the pilot flying is left, the pilot monitoring right, all others across', () => {
    const rows = rowsOf(
      withSteps([
        { id: 'a', by: 'PF', do: 'One' },
        { id: 'b', by: 'PM', say: 'Two', cue: { text: 'Then' }, why: 'Because', slip: 'Not three', critical: true },
        { id: 'c', by: 'both', do: 'Three' },
        { id: 'd', do: 'Four' },
      ]),
    );
    expect(rows.map((row) => ('side' in row ? [row.side, row.line.text] : row))).toEqual([
      ['left', 'One'],
      ['right', '“Two”'],
      ['across', 'Three'],
      ['across', 'Four'],
    ]);
    expect(rows[1]).toMatchObject({
      line: { cue: 'Then', why: 'Because', slip: 'Not three', critical: true, by: 'PM', source: expect.any(String) },
    });
  });

  test('the columns are headed by what the deck calls the two pilots', () => {
    const steps = [{ id: 'a', by: 'PF', do: 'One' }];
    expect(columnHeads(first(withSteps(steps)))).toEqual(['PF', 'PM']);
    const deck = {
      ...withSteps(steps),
      crew: [
        { id: 'PF', label: 'Pilot flying' },
        { id: 'PM', label: 'Pilot not flying' },
      ],
    };
    expect(columnHeads(first(deck))).toEqual(['Pilot flying', 'Pilot not flying']);
    expect(rowsOf(deck)).toMatchObject([{ side: 'left', line: { by: 'Pilot flying' } }]);
  });

  test("lanes stand side by side, the pilot flying's first; what is done at once says so; a branch has its condition", () => {
    const rows = rowsOf(
      withSteps([
        {
          lanes: [
            [{ id: 'a', by: 'PM', do: 'One' }],
            [
              { id: 'b', by: 'PF', do: 'Two' },
              { id: 'c', by: 'PF', do: 'Three' },
            ],
          ],
        },
        {
          together: true,
          steps: [
            { id: 'd', by: 'PF', do: 'Four' },
            { id: 'e', by: 'PM', do: 'Five' },
          ],
        },
        { if: 'engineOut', steps: [{ id: 'f', by: 'PF', do: 'Six' }] },
        { id: 'g', by: 'PF', do: 'Seven', if: '!engineOut' },
        { steps: [{ id: 'h', do: 'Eight' }] },
      ]),
    );
    expect(rows.map((row) => ('side' in row ? row.line.id : { ...row, lanes: row.lanes.map(linesOf) }))).toEqual([
      { condition: '', together: false, lanes: [['b', 'c'], ['a']] },
      { condition: '', together: true, lanes: [['d', 'e']] },
      { condition: expect.stringMatching(/^If .*engine/i), together: false, lanes: [['f']] },
      { condition: expect.stringMatching(/^If .*engine/i), together: false, lanes: [['g']] },
      'h',
    ]);
  });

  test('what must be done first, perhaps in another lane, is said', () => {
    const rows = rowsOf(
      withSteps([{ lanes: [[{ id: 'a', by: 'PF', do: 'One' }], [{ id: 'b', by: 'PM', do: 'Two', needs: ['a'] }]] }]),
    );
    expect(rows).toMatchObject([
      { lanes: [[{ line: { id: 'a' } }], [{ line: { id: 'b', wait: 'until done: One' } }]] },
    ]);
  });

  test('what is for another variant is left out; a shared block is taken in', () => {
    const rows = rowsOf(
      changed((d) => {
        const [axis] = d.variants;
        const [one, two] = Object.keys(axis.options);
        d.procedures = [
          {
            id: 'p',
            title: 'P',
            done: 'memory',
            source: 'som',
            steps: [
              { id: 'a', do: 'One', when: { [axis.id]: one } },
              { id: 'b', do: 'Two', when: { [axis.id]: two } },
              { use: 'shared-block' },
            ],
          },
          {
            id: 'q',
            title: 'Q',
            done: 'memory',
            source: 'som',
            steps: [{ id: 'shared-block', steps: [{ id: 'c', do: 'Three' }] }],
          },
        ];
      }) as unknown as Deck,
    );
    expect(linesOf(rows)).toEqual(['a', 'c']);
  });

  test.each(FILES)('%s: every step of every situation is on the page, once', (file) => {
    const resolved = first(deckOf(file));
    for (const view of resolved.views)
      for (const found of view.procedures) {
        const ids = linesOf(procedureRows(resolved, view, found));
        const all = new Set(found.situations.flatMap(({ steps }) => steps.map(({ step }) => step.id)));
        // A block that two branches take stands in both.
        expect(new Set(ids)).toEqual(all);
      }
  });
});

describe('a sheet of questions', () => {
  test.each(FILES)(
    '%s: the same seed gives the same sheet, another seed another; every question has an answer',
    (file) => {
      const resolved = first(deckOf(file));
      const sheet = questionSheet(resolved, 7, 12);
      expect(sheet).toHaveLength(12);
      expect(questionSheet(resolved, 7, 12)).toEqual(sheet);
      expect(questionSheet(resolved, 8, 12)).not.toEqual(sheet);
      for (const { ask, answer, choices, fields } of sheet) {
        expect(ask).not.toBe('');
        expect(answer).not.toMatch(/^$|undefined|@/);
        expect(choices.length > 1 || fields.length > 0).toBe(true);
        if (choices.length > 0) expect(answer).toMatch(/^[A-Z]( or [A-Z])*([:,]|$)/);
      }
    },
  );

  test.each(['merrow-takeoff.deck.json', 'merrow-abnormal.deck.json'])(
    '%s: an order that stands there is marked right',
    (file) => {
      const resolved = first(deckOf(file));
      const runs = offers(resolved, null, 1).filter(({ form }) => form === 'run');
      const sheet = questionSheet(resolved, 5, 60).filter(({ ask }) => ask.startsWith('In which order'));
      expect(sheet.length).toBeGreaterThan(1);
      let tried = 0;
      for (const { choices, answer, title } of sheet) {
        const texts = answer.split(', ').map((name) => choices.find((_, k) => letter(k) === name) ?? '');
        for (const offer of runs) {
          // Another draw of the same question: the same steps in another order.
          const shown = draw(resolved, offer, 99);
          if (shown?.form !== 'run' || shown.title !== title) continue;
          if (!texts.every((text) => shown.chips.some((chip) => chip.text === text))) continue;
          if (offer.proves.length !== texts.length) continue;
          const order = texts.map((text) => shown.chips.find((chip) => chip.text === text)?.id ?? '');
          expect(mark(resolved, offer, shown, { order }).flawed).toBe(false);
          tried += 1;
        }
      }
      expect(tried).toBeGreaterThan(0);
    },
  );

  test('things take turns: with few questions all kinds are there', () => {
    const sheet = questionSheet(first(BASE as unknown as Deck), 3, 30);
    expect(sheet.some(({ choices }) => choices.length > 2)).toBe(true);
    expect(sheet.some(({ fields }) => fields.length > 0)).toBe(true);
    expect(new Set(sheet.map(({ ask, scene }) => `${ask} ${scene.join()}`)).size).toBeGreaterThan(3);
  });
});
