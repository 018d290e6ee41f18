/** When this device exchanges with the folder of another one, and what follows from what came in. */
import type { Exchanged, SecondDevice } from '../../model/second-device.ts';
import { route } from '../route.ts';
import { plural } from '../words.ts';
import type { Learner } from './learner.ts';
import { saidElsewhere, takenLast } from './said-elsewhere.ts';

/** ms after the start: the first screen stands. */
const SETTLED = 4000;
/** Passes in a row by hand: each brings some thousand entries. */
const MOST_PASSES = 100;

const known = new WeakMap<Learner, Promise<SecondDevice>>();

/** One for a learner: it keeps the password of this page, and one pass waits for the other. */
export const secondDeviceOf = (learner: Learner): Promise<SecondDevice> => {
  const found = known.get(learner) ?? learner.device.secondDevice(learner.store);
  known.set(learner, found);
  found.catch(() => known.delete(learner));
  return found;
};

/** Where nothing is answered: what comes in there changes no question under the learner's hands. */
const QUIET: ReadonlySet<string> = new Set(['brief', 'settings', 'decks', 'date', 'debrief']);
export const mayTakeIn = (): boolean => QUIET.has(route.peek().at);

/**
 * The revisions practised are those that the learner took last, on whichever device: the log says which.
 * @returns whether any is another now
 */
const followTaken = async (learner: Learner): Promise<boolean> => {
  const { store, decks, memory } = learner;
  const last = takenLast(memory.peek().taken);
  let changed = false;
  for (const { id, ref, active } of decks.peek()) {
    if (!active || last.get(id) === undefined || last.get(id) === ref) continue;
    const next = decks.peek().find((one) => one.ref === last.get(id));
    if (next === undefined) continue;
    await store.decks.setActive(next.ref, true);
    changed = true;
  }
  return changed;
};

/** Is the app out of sight, and how often did it go: the system ends its requests there, or the page is being left. */
let isPutAway = false;
let timesPutAway = 0;

const settle = async (learner: Learner, { came }: Exchanged, keepSaid: () => Promise<unknown>): Promise<void> => {
  if (came.entries === 0 && came.decks === 0) return;
  await learner.reload();
  if (await followTaken(learner)) await learner.reload();
  await keepSaid();
};

const sum = (one: Exchanged, other: Exchanged): Exchanged => ({
  came: {
    entries: one.came.entries + other.came.entries,
    answers: one.came.answers + other.came.answers,
    days: one.came.days + other.came.days,
    decks: one.came.decks + other.came.decks,
    clashes: one.came.clashes + other.came.clashes,
  },
  went: {
    entries: one.went.entries + other.went.entries,
    answers: one.went.answers + other.went.answers,
    decks: one.went.decks + other.went.decks,
  },
  aside: [...one.aside, ...other.aside],
  badLines: one.badLines + other.badLines,
  more: other.more,
});

/**
 * Until nothing more is to come.
 * @param tell what came so far
 * @returns null where it was not time to try
 * @throws Error for people
 */
export const exchange = async (
  learner: Learner,
  byHand: boolean,
  tell: (so: Exchanged) => void = () => undefined,
): Promise<Exchanged | null> => {
  const folder = await secondDeviceOf(learner);
  const keepSaid = await saidElsewhere(learner);
  let all: Exchanged | null = null;
  const begun = isPutAway ? -1 : timesPutAway;
  const wasCutOff = (): boolean => timesPutAway !== begun;
  try {
    for (let passes = 0; passes < MOST_PASSES; passes += 1) {
      const did = await folder.exchange({ byHand, mayTakeIn, wasCutOff });
      if (did === null) break;
      all = all === null ? did : sum(all, did);
      tell(all);
      if (!did.more || !mayTakeIn()) break;
    }
  } finally {
    // What came before a failure is here all the same.
    if (all !== null) await settle(learner, all, keepSaid);
  }
  return all;
};

const following = new WeakSet<Learner>();

/** At the start and whenever the app goes out of sight. @returns how to stop */
export const followExchanges = (learner: Learner): (() => void) => {
  if (following.has(learner)) return () => undefined;
  following.add(learner);
  const quietly = () => {
    if (learner.writing.peek()) void exchange(learner, false).catch(() => undefined);
  };
  const hidden = () => {
    isPutAway = document.visibilityState === 'hidden';
    if (!isPutAway) return;
    timesPutAway += 1;
    quietly();
  };
  const timer = setTimeout(quietly, SETTLED);
  document.addEventListener('visibilitychange', hidden);
  return () => {
    clearTimeout(timer);
    following.delete(learner);
    document.removeEventListener('visibilitychange', hidden);
  };
};

const counted = (
  { answers, entries, decks }: { readonly answers: number; readonly entries: number; readonly decks: number },
  days: number | null,
): string => {
  const parts = [
    ...(answers > 0 ? [`${plural(answers, 'answer')}${days === null ? '' : ` of ${plural(days, 'day')}`}`] : []),
    ...(entries > answers
      ? [answers > 0 ? plural(entries - answers, 'other entry', 'other entries') : plural(entries, 'entry', 'entries')]
      : []),
    ...(decks > 0 ? [plural(decks, 'deck')] : []),
  ];
  return parts.length === 0 ? 'nothing new' : parts.join(', ');
};

/** What an exchange did, for people. */
export const exchangedWords = ({ came, went, aside, badLines }: Exchanged): readonly string[] => [
  `Came in: ${counted(came, came.days)}. Went out: ${counted(went, null)}. Nothing was lost.`,
  ...(came.clashes > 0
    ? [
        `${plural(came.clashes, 'entry', 'entries')} came from a copied device under a number that was taken: both are kept.`,
      ]
    : []),
  ...(badLines > 0 ? [`${plural(badLines, 'line')} in the folder could not be read and stayed there.`] : []),
  ...(aside.length > 0
    ? [
        `${plural(aside.length, 'file')} in the folder ${aside.length === 1 ? 'was' : 'were'} left aside: ${aside.slice(0, 3).join('; ')}.`,
      ]
    : []),
];
