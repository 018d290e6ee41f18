/** What a progress report and a practice record are made of, and the key that signs reports. */
import { resolveInSteps } from '../../deck/resolve.ts';
import { slipsInSteps } from '../../drill/slips.ts';
import { askedItems, offersAhead } from '../../drill/world.ts';
import type { ItemKey } from '../../model/item.ts';
import { LEAVABLE, type Leavable, type Report, type ReportPlan } from '../../model/report.ts';
import { MOST_TRAINEE } from '../../model/trainee.ts';
import type { DeckSource } from '../../report/build.ts';
import { LEFT_OUT, type Resolved } from '../../subjects/resolved.ts';
import type { OwnKey } from '../device.ts';
import { type Course, courseOf } from '../words.ts';
import { inPieces } from './in-pieces.ts';
import type { Learner, Practised } from './learner.ts';
import { lookBackOf } from './past.ts';
import { readyToAsk } from './plan-input.ts';
import type { PlanRecord } from './plan-record.ts';

export interface Gathered {
  readonly decks: readonly DeckSource[];
}

const decksOf = (learner: Learner, course: Course): readonly Practised[] =>
  learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === course);

/** Reads the whole log, in a worker. @throws StoreProblem */
export const gather = async (learner: Learner, course: Course): Promise<Gathered> => {
  const { elapsed } = learner.device;
  const practised = decksOf(learner, course);
  const [{ tally }] = await Promise.all([lookBackOf(learner, { tally: true }), readyToAsk(learner, course)]);
  const tallies = new Map(tally);
  const aliases = new Map(learner.facts().today);
  const today = (key: ItemKey) => aliases.get(key) ?? key;
  const decks: DeckSource[] = [];
  for (const { stored, resolved } of practised) {
    const of = tallies.get(stored.id) ?? null;
    const answered = new Set(of?.items.map(([key]) => key));
    const some = new Set(askedItems([resolved]).map(({ key }) => key));
    // What no question asks may have come up in a run in time.
    const asked = [...resolved.items.values()].filter(({ key }) => some.has(key) || answered.has(key));
    const keys = new Set(asked.map(({ key }) => key));
    decks.push({
      resolved,
      contentId: stored.contentId,
      asked,
      notAsked: await notAskedOf(learner, stored.contentId, resolved),
      tally: of,
      slips: await inPieces(slipsInSteps(of?.wrong ?? [], resolved, keys, today), elapsed),
    });
  }
  return { decks };
};

/** Of a deck as it would be asked, were nothing of its steps left out. */
const notAskedOf = async (learner: Learner, contentId: string, { deck, items }: Resolved): Promise<number> => {
  const { [LEFT_OUT]: out = [], ...variants } = learner.flown(deck.id);
  if (out.length === 0) return 0;
  const { elapsed } = learner.device;
  const whole = await inPieces(resolveInSteps(deck, contentId, variants), elapsed);
  await inPieces(offersAhead([whole]), elapsed);
  return askedItems([whole]).filter(({ key }) => !items.has(key)).length;
};

/** What the Brief says of the minutes planned; null until that is worked out. */
export const planSaid = (record: PlanRecord | null): ReportPlan | null =>
  record === null || record.plan.recall === null || record.advice === null
    ? null
    : { minutes: record.minutes, recall: record.plan.recall, needed: record.advice.enough };

/** All that a report says but its number and the plan, which may be worked out after it was made: it is still that one. */
export const contentOf = ({ n: _, plan: __, ...said }: Report): string => JSON.stringify(said);

const KEY = 'report-key';
const CHOSEN = 'report';

/**
 * The key that names this device in reports: made when it is first needed, and it never leaves.
 * @throws Error for people: no such key can be had here
 */
export const deviceKey = async (learner: Learner): Promise<OwnKey> => {
  const kept = (await learner.store.device.get(KEY)) as OwnKey | undefined;
  if (kept !== undefined) return kept;
  const made = await (await learner.device.signing()).makeDeviceKey();
  await learner.store.device.put(KEY, made);
  return made;
};

/** As last chosen on this device. */
export interface Chosen {
  readonly trainee: string;
  readonly leftOut: readonly Leavable[];
  /** Of the last report that was made; 0 before the first. */
  readonly n: number;
}

/** @param key names a trainee who has not called themselves anything */
export const keptChoice = async (learner: Learner, key: OwnKey): Promise<Chosen> => {
  const { trainee, leftOut, n } = ((await learner.store.device.get(CHOSEN)) ?? {}) as Partial<Chosen>;
  return {
    trainee:
      typeof trainee === 'string' ? trainee.slice(0, MOST_TRAINEE) : `Trainee ${key.fingerprint.letters.slice(0, 4)}`,
    leftOut: Array.isArray(leftOut) ? LEAVABLE.filter((part) => leftOut.includes(part)) : [],
    n: Number.isSafeInteger(n) ? Number(n) : 0,
  };
};

/** @throws StoreProblem */
export const keepChoice = (learner: Learner, chosen: Chosen): Promise<void> => learner.store.device.put(CHOSEN, chosen);
