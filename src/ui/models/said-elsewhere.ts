/**
 * What another device said of the check date, of variants and of versions, where this one has none of its own. In the
 * log the latest holds, whoever wrote it: a phone that was set up anew, with "no date yet", would take away what the old
 * one had set. So it is written once more, as this device's own say; the union itself knows nothing of it.
 */
import { compareVersions } from '../../deck/version.ts';
import { readStored } from '../../log/line.ts';
import { fold } from '../../memory/fold.ts';
import type { Learner } from './learner.ts';

/** Not null, and not a list or an object without anything in it: "no date yet", "not told yet" say nothing. */
const isSaid = (value: unknown): boolean =>
  typeof value === 'object' && value !== null
    ? Object.values(value).some(isSaid)
    : value !== undefined && value !== null;

/** No answers are folded. */
const NO_FACTS = { of: () => ({ critical: false, decision: false }), today: (key: string) => key };

/** Deck id → revision that was taken last. @param taken as a fold has them, by ref, the last one last */
export const takenLast = (taken: ReadonlyMap<string, unknown>): ReadonlyMap<string, string> =>
  new Map([...taken.keys()].map((ref) => [ref.slice(0, ref.lastIndexOf('@')), ref]));

/**
 * To be called before anything is joined.
 * @returns what to do once it is joined and read; it tells whether anything was written. Where this device has answers of
 * its own it writes nothing. @throws StoreProblem
 */
export const saidElsewhere = async (learner: Learner): Promise<() => Promise<boolean>> => {
  if (learner.memory.peek().answers > 0) return async () => false;
  const { store, decks } = learner;
  const own = new Set<string>();
  await store.log.all((lines) => {
    for (const line of lines) own.add(line);
  });
  return async () => {
    const theirs: string[] = [];
    await store.log.all((lines) => {
      // Thousands of answers need not be read for it.
      for (const line of lines) if (!own.has(line) && /"k":"(set|deck|clock)"/.test(line)) theirs.push(line);
    });
    const { settings, taken } = fold(
      theirs.map(readStored).filter(({ k }) => k !== 'answer'),
      NO_FACTS,
    );
    let written = false;
    for (const [key, { value }] of settings) {
      if (!isSaid(value) || isSaid(learner.setting(key))) continue;
      await learner.set(key, value);
      written = true;
    }
    const last = takenLast(taken);
    for (const { id, version, active } of decks.peek()) {
      const next = decks.peek().find(({ ref }) => ref === last.get(id));
      // Never back to an older one: whoever took the newer knows why.
      if (!active || next === undefined || compareVersions(next.version, version) <= 0) continue;
      await learner.setActive(next, true);
      written = true;
    }
    return written;
  };
};
