import { afterReading, type DrillEntry, reduce, startSession } from '../drill/session.ts';
import type { Asking, Session } from '../drill/types.ts';
import { allOffers, itemsOf, readingOf, type World } from '../drill/world.ts';
import { type Random, seeded } from '../lib/random.ts';
import { itemSeconds, planRows } from '../memory/plan/input.ts';
import { READING } from '../memory/plan/shares.ts';
import { solvePlan } from '../memory/plan/solve.ts';
import type { Plan } from '../memory/plan/types.ts';
import { type Options, type Report, standingOf } from '../memory/simulate/compare.ts';
import { answerOf, type Learner, makeLearner } from '../memory/simulate/learner.ts';
import { LATER, type Result } from '../memory/simulate/run.ts';
import { emptyMemory, step } from '../memory/step.ts';
import type { Facts } from '../memory/types.ts';
import type { Offer } from '../model/form.ts';
import { type Item, type ItemKey, parseItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';

/** What the drill knows of the check: nothing, its day, or its plan. */
const WAYS = ['due date only', 'check day, no plan', 'plan'] as const;
type Way = (typeof WAYS)[number];

/** A Wednesday, ten in the morning UTC. */
const FIRST = Date.UTC(2026, 10, 25, 10);
const DAY_MS = 86_400_000;
const FIRST_DAY = Math.floor(FIRST / DAY_MS);
/** Of the time of a question; the rest goes by with its verdict. */
const ANSWERING = 0.6;
/** A drill of more questions would never end. */
const MOST_TURNS = 5000;

interface Truth {
  readonly s: number;
  readonly d: number;
  readonly day: number;
}

/**
 * Drills as the app composes them, marks and folds them, answered by simulated learners. Of an answer only the text is
 * left out: which items are right is settled by the learner's memory, and marked so. What they do not know they
 * answer wrongly, and not sure; in a run, and of a crew, they name the steps that they are not sure of.
 * @yields the share done, 0..1
 */
export function* composed(
  decks: readonly Resolved[],
  days: number,
  minutes: number,
  { variety, learners, seed, every }: Options,
): Generator<number, Report> {
  const results = WAYS.map((): Result[] => []);
  let forecast: number | null = null;
  for (let n = 0; n < learners; n++) {
    const learner = makeLearner(seeded(`learner ${seed + n}`), variety, days);
    for (const [w, way] of WAYS.entries()) {
      const course = courseOf(decks, way, learner, seeded(`answers ${seed + n}`), days, minutes, every);
      for (let day = 0; day < days; day++) {
        course.practise(day);
        yield (n + (w + (day + 1) / days) / WAYS.length) / learners;
      }
      results[w]?.push(course.result());
      forecast ??= course.forecast();
    }
  }
  return { standings: WAYS.map((way, w) => standingOf(way, results[w] ?? [])), bound: null, forecast };
}

const courseOf = (
  decks: readonly Resolved[],
  way: Way,
  learner: Learner,
  random: Random,
  days: number,
  minutes: number,
  every: number,
) => {
  const items = new Map(decks.flatMap((deck) => [...deck.items]));
  const facts: Facts = {
    of: (key) => ({ critical: items.get(key)?.critical ?? false, decision: items.get(key)?.facet === 'rule' }),
    today: (key) => key,
  };
  const memory = emptyMemory();
  const truths = new Map<ItemKey, Truth>();
  const checkDay = way === 'due date only' ? null : FIRST_DAY + days;
  // How long questions really take: as first estimated, however the app has come to estimate them.
  const seconds = new Map(allOffers({ decks, memory }).map(({ offer }) => [nameOf(offer), offer.seconds]));
  const least = itemSeconds(allOffers({ decks, memory }).map(({ offer }) => offer));
  const asked = [...planRows(itemsOf(decks), memory, least, FIRST_DAY).keys];
  let plan: Plan | null = null;
  let forecast: number | null = null;
  let questions = 0;
  let entries = 0;

  const write = (said: DrillEntry, at: number) => {
    entries += 1;
    const id = `s.${entries}`;
    return { id, outcome: step(memory, { v: 1, app: 'simulation', id, at, off: 0, ...said }, facts) };
  };

  const planOn = (day: number): Plan | null => {
    if (way !== 'plan') return null;
    if (plan !== null && day % every !== 0) return plan;
    const now = itemSeconds(allOffers({ decks, memory }).map(({ offer }) => offer));
    const all = itemsOf(decks);
    const { items } = planRows(all, memory, now, FIRST_DAY + day);
    const reading = readingOf(
      all.filter(({ key }) => now.has(key)),
      memory,
    );
    const from = plan === null ? {} : { from: plan };
    plan = solvePlan({ items, day: FIRST_DAY + day, checkDay: FIRST_DAY + days, minutes, reading, ...from });
    forecast ??= plan?.recall ?? null;
    return plan;
  };

  /** Which items are known, and how surely; learnt from it. @returns what the answer is marked as */
  const replied = (said: DrillEntry, { offer }: Asking, day: number): DrillEntry => {
    const verdicts = offer.proves.map((key) => {
      const before = truths.get(key) ?? null;
      const gap = before === null ? 0 : day - before.day;
      const verdict = answerOf(random, learner, before, gap, day);
      truths.set(key, { ...learner.model.next(before, gap, verdict), day });
      return [key, verdict] as const;
    });
    const wrong = verdicts.filter(([, verdict]) => verdict === 'missed');
    const unsure = verdicts.filter(([, verdict]) => verdict !== 'sound').map(([key]) => parseItemKey(key)?.thing ?? '');
    return {
      ...said,
      marks: Object.fromEntries(verdicts.map(([key, verdict]) => [key, verdict === 'missed' ? 'wrong' : 'right'])),
      sure: unsure.length === 0,
      ...((offer.form === 'run' || offer.form === 'crew') && unsure.length > 0 && { unsure }),
      ...(offer.proves.length > 1 && wrong.length > 0 && { flawed: true }),
      // Of rows dealt without a fault the whole would have to be guessed.
      g: offer.form === 'crew' && wrong.length === 0 ? offer.g ** offer.proves.length : offer.g,
    } as DrillEntry;
  };

  const practise = (day: number): void => {
    const world: World = { decks, memory, day: FIRST_DAY + day, checkDay, plan: planOn(day) };
    const fictional = decks.every(({ deck }) => deck.nature === 'fictional');
    const start = FIRST + day * DAY_MS;
    let session: Session = startSession(
      {
        id: `${day}`,
        course: fictional ? 'fictional' : 'real',
        started: start,
        seconds: minutes * 60,
        seed: day + Math.floor(random() * 2 ** 31),
      },
      world,
    );
    const pass = (s: number) => {
      session = reduce(session, { k: 'time', seconds: s }, world).session;
    };
    for (let turn = 0; session.now.kind !== 'done'; turn++) {
      if (turn > MOST_TURNS) throw new Error('The drill does not end.');
      const { now } = session;
      if (now.kind === 'read') {
        pass(READING * now.things.length);
        const { session: next, entry } = reduce(session, { k: 'read' }, world);
        if (entry !== undefined) write(entry, start + session.used * 1000);
        session = afterReading(next, world);
      } else if (now.kind === 'ask') {
        const takes = seconds.get(nameOf(now.offer)) ?? now.offer.seconds;
        const ms = takes * ANSWERING * 1000;
        pass(takes * ANSWERING);
        const given = { k: 'answer', given: null, sure: null, unsure: [], ms } as const;
        const { session: told, entry } = reduce(session, given, world);
        session = told;
        if (entry === undefined) continue;
        questions += 1;
        const { id, outcome } = write(replied(entry, now, day), start + session.used * 1000);
        session = reduce(session, { k: 'stored', entry: id, outcome }, world).session;
        pass(takes * (1 - ANSWERING));
      } else session = reduce(session, { k: 'next' }, world).session;
    }
  };

  const result = (): Result => {
    const recallOn = (day: number) =>
      asked.map((key) => {
        const truth = truths.get(key);
        return truth === undefined ? 0 : learner.model.chance(truth.s, day - truth.day);
      });
    const recall = recallOn(days);
    const held = recall.filter((_, i) => (items.get(asked[i] as ItemKey) as Item).critical);
    return {
      recall: mean(recall),
      later: mean(recallOn(days + LATER)),
      critical: held.length === 0 ? null : mean(held),
      unmet: asked.filter((key) => !truths.has(key)).length,
      asked: questions,
      believed: mean(
        asked.map((key) => {
          const known = memory.items.get(key);
          return known === undefined ? 0 : memory.model.chance(known.s, FIRST_DAY + days - known.day);
        }),
      ),
    };
  };

  return { practise, result, forecast: () => forecast };
};

const nameOf = ({ form, about, variant }: Offer): string => JSON.stringify([form, about, variant]);
const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / list.length;
