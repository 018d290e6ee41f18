import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { idsIn } from '../../src/draft/blank.ts';
import { plain } from '../../src/draft/paste/clean.ts';
import { knownOf } from '../../src/draft/paste/known.ts';
import { type Choices, propose } from '../../src/draft/paste/propose.ts';
import { recognise } from '../../src/draft/paste/recognise.ts';
import { toRows } from '../../src/draft/paste/to-rows.ts';
import { slotsOf, stepsIn } from '../../src/draft/paste/tree.ts';
import type { Known } from '../../src/draft/paste/types.ts';
import { readRows } from '../../src/exchange/rows.ts';
import { writeRows } from '../../src/exchange/rows-out.ts';
import { bestPairs, type Pair } from '../../src/lib/assignment.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import type { Deck, Node, Step } from '../../src/model/deck.ts';

const CHOICES: Choices = { order: 'columns', shape: 'procedure', apart: new Set(), keep: new Set() };
const NONE = knownOf({});

const pasted = (text: string, nodes: readonly Node[], known: Known, taken: ReadonlySet<string>) =>
  propose(recognise(readRows(text), known).readings, nodes, taken, known, CHOICES);

const idsOf = (nodes: readonly Node[]): string[] => stepsIn(slotsOf(nodes)).map(({ id }) => id);

/** Texts with all that might be taken for something else. */
const odd = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        'Thrust',
        'gear up',
        '400 ft',
        '“',
        '”',
        '"',
        "'",
        '-',
        '–',
        '•',
        '1.',
        '(a)',
        ',',
        ';',
        '...',
        '\t',
      ),
      fc.constantFrom(
        '=1+1',
        '@x',
        'PF:',
        '(PM)',
        'calls',
        'At 400 ft:',
        '\u00ad',
        '\u00a0',
        '\u2028',
        '\n',
        '\r\n',
        '|',
        '{v1}',
      ),
      fc.string({ maxLength: 6 }),
    ),
    { minLength: 1, maxLength: 6 },
  )
  .map((parts) => parts.join(' '));

const optional = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(value, { nil: undefined });
const filled = <T extends object>(record: T): T =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as T;

const stepOf = (text: fc.Arbitrary<string>) =>
  fc
    .record({
      by: optional(fc.constantFrom('PF', 'PM', 'both')),
      do: optional(text),
      say: optional(text),
      cue: optional(fc.record({ text })),
      why: optional(text),
      slip: optional(text),
      where: optional(text),
      critical: optional(fc.constant(true)),
      needs: optional(fc.constant(['other'])),
      alsoSay: optional(fc.constant(['So'])),
    })
    .map(filled)
    .filter((step) => plain(step.do ?? '') !== '' || plain(step.say ?? '') !== '');

/** Steps with ids, some of them in lanes and blocks. */
const nodesOf = (text: fc.Arbitrary<string>): fc.Arbitrary<Node[]> =>
  fc.array(fc.tuple(stepOf(text), fc.integer({ min: 0, max: 3 })), { minLength: 1, maxLength: 9 }).map((list) => {
    const steps = list.map(([step, kind], i) => ({ step: { id: `s${i}x`, ...step } as Step, kind }));
    const nodes: Node[] = [];
    for (let i = 0; i < steps.length; ) {
      const { step, kind } = steps[i] as (typeof steps)[number];
      const pair = steps[i + 1]?.step;
      if (kind === 1 && pair !== undefined) nodes.push({ lanes: [[step], [pair]] });
      else if (kind === 2 && pair !== undefined) nodes.push({ if: 'fire', steps: [step, pair] });
      else if (kind === 3 && pair !== undefined) nodes.push({ id: `b${i}x`, together: true, steps: [step, pair] });
      else nodes.push(step);
      i += kind > 0 && pair !== undefined ? 2 : 1;
    }
    return nodes;
  });

test('words are cleaned once and for all', () => {
  fc.assert(
    fc.property(odd, (text) => {
      expect(plain(plain(text))).toBe(plain(text));
    }),
  );
});

test('what is written comes back cell by cell', () => {
  const cell = odd.map((text) => text.replaceAll(/\r\n?|[\u2028\u2029\u0085\v]/g, '\n'));
  fc.assert(
    fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 2 }), { minLength: 1, maxLength: 4 }), (rows) => {
      const { rows: back } = readRows(writeRows([['action', 'why'], ...rows]));
      expect(back).toEqual([['action', 'why'], ...rows, ['']]);
    }),
  );
});

test('a procedure written out and pasted onto itself is the same, whatever its words', () => {
  fc.assert(
    fc.property(nodesOf(odd), (nodes) => {
      const proposal = pasted(writeRows(toRows(nodes)), nodes, NONE, idsIn(nodes as unknown as Json));
      expect(proposal.lines.filter(({ fate }) => fate === 'new')).toEqual([]);
      expect(proposal.gone).toEqual([]);
      expect(proposal.nodes).toEqual(nodes);
      expect(proposal.isSame).toBe(true);
    }),
  );
});

const WORDS = [
  'thrust',
  'lever',
  'flap',
  'speed',
  'brake',
  'light',
  'timer',
  'heading',
  'climb',
  'radio',
  'trim',
  'pack',
];
const sentence = fc
  .tuple(
    fc.constantFrom('Set', 'Check', 'Press', 'Hold', 'Release'),
    fc.array(fc.constantFrom(...WORDS), { minLength: 2, maxLength: 5 }),
  )
  .map(([verb, words]) => `${verb} ${words.join(' ')}`);

test('written out and read into an empty procedure: the same steps with the same ids, and lanes', () => {
  fc.assert(
    fc.property(nodesOf(sentence), (nodes) => {
      const { nodes: back } = pasted(writeRows(toRows(nodes)), [], NONE, new Set());
      // What has no column is in the deck alone; blocks but for lanes are dissolved.
      const bare = (list: readonly Node[]): unknown[] =>
        list.flatMap((node): unknown[] => {
          if ('lanes' in node) return [{ lanes: node.lanes?.map(bare) }];
          if ('steps' in node) return bare(node.steps as Node[]);
          const { needs: _n, alsoSay: _a, ...rest } = node as Step;
          return [rest];
        });
      expect(back).toEqual(bare(nodes));
    }),
  );
});

test('a list pasted twice changes nothing the second time', () => {
  const line = fc.oneof(
    odd,
    sentence,
    sentence.map((text) => `PF: ${text}`),
    sentence.map((text) => `2. PM calls "${text}"`),
  );
  fc.assert(
    fc.property(fc.array(line, { minLength: 1, maxLength: 12 }), (lines) => {
      const text = lines.join('\n');
      const first = pasted(text, [], NONE, new Set());
      fc.pre(first.nodes.length > 0);
      const again = pasted(text, first.nodes, NONE, idsIn(first.nodes as unknown as Json));
      expect(again.nodes).toEqual(first.nodes);
      expect(again.lines.every(({ fate, moved }) => (fate === null || fate === 'same') && !moved)).toBe(true);
    }),
  );
});

/** Steps that nobody confuses. */
const DISTINCT = [
  'Thrust levers to the stabilising setting',
  'Start the timer',
  'Landing gear up',
  'Select heading mode',
  'Retract the flaps to one',
  'Switch the packs on',
  'Contact departure on the second radio',
  'Trim for the climb attitude',
];

test('rewording one step and changing the order of all keeps every id, and the order is the list’s', () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray(DISTINCT, { minLength: 2 }),
      fc.integer({ min: 0, max: 7 }),
      fc.infiniteStream(fc.boolean()),
      (texts, which, shuffle) => {
        const nodes = texts.map((text, i): Step => ({ id: `kept-${i}`, do: text, why: `Because ${i}` }));
        const rows = texts.map((text, i) => ({
          id: `kept-${i}`,
          text: i === which % texts.length ? `${text} now` : text,
        }));
        const order = [...rows].sort(() => (shuffle.next().value ? 1 : -1));
        const text = order.map((row, i) => `${i + 1}. ${row.text}`).join('\n');
        const { nodes: next } = pasted(text, nodes, NONE, idsIn(nodes as unknown as Json));
        expect(next).toEqual(order.map(({ id, text: words }) => ({ id, do: words, why: `Because ${id.slice(5)}` })));
      },
    ),
  );
});

test('onto blocks and lanes: no step is lost or doubled, and where the procedure is a plain list the order is the list’s', () => {
  fc.assert(
    fc.property(nodesOf(sentence), fc.array(sentence, { minLength: 1, maxLength: 10 }), (nodes, lines) => {
      const text = lines.map((line, i) => `${i + 1}. ${line}`).join('\n');
      const { nodes: next, lines: told, gone } = pasted(text, nodes, NONE, idsIn(nodes as unknown as Json));
      const ids = idsOf(next);
      expect(new Set(ids).size).toBe(ids.length);
      expect(ids.length).toBe(told.filter(({ fate }) => fate !== null).length);
      expect(new Set([...ids.filter((id) => idsOf(nodes).includes(id)), ...gone.map(({ step }) => step.id)])).toEqual(
        new Set(idsOf(nodes)),
      );
      if (nodes.every((node) => 'do' in node || 'say' in node))
        expect(stepsIn(slotsOf(next)).map((step) => step.do)).toEqual(lines);
    }),
  );
});

const folder = new URL('../../decks/', import.meta.url);
const DECKS = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Deck);

test('every procedure of every deck that comes along is the same after it was written out and pasted again', () => {
  for (const deck of DECKS)
    for (const { steps } of deck.procedures ?? []) {
      const { nodes } = pasted(
        writeRows(toRows(steps)),
        steps,
        knownOf(deck as unknown as Json),
        idsIn(deck as unknown as Json),
      );
      expect(nodes).toEqual(steps);
    }
});

test('the same, without the column that names the steps, and their rows turned round: each finds its step', () => {
  for (const deck of DECKS)
    for (const { steps } of deck.procedures ?? []) {
      const [headings = [], ...rows] = toRows(steps).map((row) => row.slice(2));
      const turned = writeRows([headings, ...rows.reverse()]);
      const { nodes, gone } = pasted(turned, steps, knownOf(deck as unknown as Json), idsIn(deck as unknown as Json));
      expect(gone).toEqual([]);
      expect(idsOf(nodes).sort()).toEqual(idsOf(steps).sort());
    }
});

/** Greatest total worth by trying each left end with each free right one, or none. */
const tried = (pairs: readonly Pair[], left = 0, used: ReadonlySet<number> = new Set()): number => {
  if (left > 5) return 0;
  const alone = tried(pairs, left + 1, used);
  return pairs
    .filter((pair) => pair.left === left && !used.has(pair.right))
    .reduce(
      (best, { right, worth }) => Math.max(best, worth + tried(pairs, left + 1, new Set([...used, right]))),
      alone,
    );
};

test('the best pairs are worth what trying all finds, and share no end', () => {
  const pair = fc.record({
    left: fc.integer({ min: 0, max: 5 }),
    right: fc.integer({ min: 0, max: 5 }),
    worth: fc.integer({ min: 1, max: 9 }),
  });
  fc.assert(
    fc.property(fc.array(pair, { maxLength: 20 }), (pairs) => {
      const best = bestPairs(pairs);
      expect(new Set(best.map(({ left }) => left)).size).toBe(best.length);
      expect(new Set(best.map(({ right }) => right)).size).toBe(best.length);
      expect(best.every((one) => pairs.includes(one))).toBe(true);
      expect(best.reduce((sum, { worth }) => sum + worth, 0)).toBe(tried(pairs));
    }),
  );
});
