import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { resolve } from '../../../src/deck/resolve.ts';
import { reduce, startSession, afterReading, type DrillEntry } from '../../../src/drill/session.ts';
import type { Session } from '../../../src/drill/types.ts';
import type { World } from '../../../src/drill/world.ts';
import { emptyMemory, step } from '../../../src/memory/step.ts';
import type { Entry } from '../../../src/model/entry.ts';
import type { Deck } from '../../../src/model/deck.ts';

const deck = JSON.parse(readFileSync('decks/public-rules.deck.json', 'utf8')) as Deck;
const resolved = resolve(deck, 'a'.repeat(64), {});
const DAY0 = Date.parse('2026-11-25T10:00:00Z');

test('look', () => {
  const memory = emptyMemory();
  const facts = { of: () => ({ critical: false, decision: false }), today: (k: string) => k };
  let n = 0;
  let t = DAY0;
  const write = (e: DrillEntry) => {
    n += 1;
    t += 1000;
    const entry = { v: 1, id: `abc.${n}`, app: 'x', at: t, off: 0, ...e } as Entry;
    return { entry, outcome: step(memory, entry, facts) };
  };
  for (let day = 0; day < 3; day++) {
    const world: World = { decks: [resolved], memory, day: 20782 + day, checkDay: null };
    t = DAY0 + day * 86400_000;
    let s: Session = startSession({ id: `d${day}`, course: 'real', started: t, seconds: 600, seed: 7 + day }, world);
    let asked = 0, reads = 0;
    const t0 = performance.now();
    while (s.now.kind !== 'done') {
      if (s.now.kind === 'read') {
        reads++;
        const { session, entry } = reduce(s, { k: 'read' }, world);
        write(entry as DrillEntry);
        s = afterReading(reduce(session, { k: 'time', seconds: 20 }, world).session, world);
        continue;
      }
      if (s.now.kind === 'ask') {
        asked++;
        const r = reduce(s, { k: 'answer', given: null, sure: (asked % 3 === 0 ? null : true), unsure: [], ms: 9000 } as never, world);
        const { entry, outcome } = write(r.entry as DrillEntry);
        s = reduce(r.session, { k: 'stored', entry: entry.id, outcome }, world).session;
        s = reduce(s, { k: 'time', seconds: 15 }, world).session;
      }
      s = reduce(s, { k: 'next' }, world).session;
    }
    console.log(day, s.now, { asked, reads, met: s.met.length, ms: performance.now() - t0 }, memory.items.size);
  }
  expect(1).toBe(1);
});
