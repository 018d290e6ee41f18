import type { Resolved } from '../subjects/resolved.ts';
import { answer, stored, unstored, voided } from './answering.ts';
import { compose } from './compose.ts';
import type { DrillEntry, DrillEvent, Reduced, Start } from './events.ts';
import type { Asking, Reading, Session } from './types.ts';
import { askedItems, deckOf, itemIn, newName, ofCourse, type World } from './world.ts';

export type { DrillEntry, DrillEvent, Reduced, Start };

/** A new drill, with its first question. */
export const startSession = (start: Start, world: World): Session => {
  const blank: Session = {
    v: 1,
    id: start.id,
    course: start.course,
    started: start.started,
    day: world.day,
    seconds: start.seconds,
    used: 0,
    seed: start.seed,
    count: 0,
    now: { kind: 'done', why: 'empty' },
    answered: [],
    back: [],
    met: [],
  };
  return { ...blank, now: compose(blank, ofCourse(world, start.course)) };
};

/** What an event makes of a drill. Pure: neither clock nor dice; events that do not fit what is shown change nothing. */
export const reduce = (session: Session, event: DrillEvent, world: World): Reduced => {
  const { now } = session;
  const here = ofCourse(world, session.course);
  switch (event.k) {
    case 'time':
      return { session: spend(session, event.seconds) };
    case 'draft':
      return now.kind === 'ask' ? { session: { ...session, now: { ...now, draft: event.draft } } } : { session };
    case 'read':
      return now.kind === 'read' ? read(session, now, here) : { session };
    case 'answer':
      return now.kind === 'ask' ? (answer(session, now, event, here) ?? gone(session, here)) : { session };
    case 'stored':
      return { session: stored(session, event.entry, event.outcome) };
    case 'unstored':
      return { session: unstored(session) };
    case 'next':
      return now.kind === 'verdict' ? { session: put(session, here) } : { session };
    case 'void':
      return now.kind === 'verdict' && now.entry !== null && now.voided === undefined
        ? voided(session, now, now.entry, event)
        : { session };
    case 'enough':
      return now.kind === 'done' ? { session } : { session: { ...session, now: { kind: 'done', why: 'enough' } } };
    case 'resume':
      return resume(session, here);
  }
};

const spend = (session: Session, seconds: number): Session => {
  const { now } = session;
  if (!(seconds > 0) || !Number.isFinite(seconds) || now.kind === 'done') return session;
  const elapsed = now.kind === 'ask' ? { now: { ...now, elapsed: now.elapsed + seconds * 1000 } } : {};
  return { ...session, ...elapsed, used: session.used + seconds };
};

/** The next question. */
const put = (session: Session, world: World): Session => turnTo({ ...session, count: session.count + 1 }, world);

const turnTo = (session: Session, world: World): Session => {
  const now = compose(session, world);
  // What comes back now has not to come back any more.
  const asked = new Set(now.kind === 'ask' ? now.offer.proves : []);
  return { ...session, now, back: session.back.filter(({ key }) => !asked.has(key)) };
};

const gone = (session: Session, world: World): Reduced => ({ session: turnTo(session, world), said: 'gone' });

const read = (session: Session, now: Reading, world: World): Reduced => {
  const resolved = deckOf(world, now.deck);
  if (resolved === undefined) return gone(session, world);
  const things = new Set(now.things);
  const fresh = askedItems([resolved]).filter((item) => things.has(item.thing) && !world.memory.items.has(item.key));
  // A step counts once, whatever of it is asked.
  const met = [...new Map(fresh.reverse().map((item) => [newName(item), item])).values()].reverse();
  const entry: DrillEntry = { k: 'read', drill: session.id, deck: now.deck, about: [...now.things] };
  return { session: { ...session, met: [...new Set([...session.met, ...met.map(({ key }) => key)])] }, entry };
};

/** After a reading was stored, and the memory knows of it: the first question about it. */
export const afterReading = (session: Session, world: World): Session =>
  session.now.kind === 'read' ? turnTo(session, ofCourse(world, session.course)) : session;

const resume = (session: Session, world: World): Reduced => {
  const { now } = session;
  // A verdict is only looked at: it needs no deck.
  if (now.kind === 'done' || now.kind === 'verdict') return { session };
  const resolved = deckOf(world, now.deck);
  return resolved !== undefined && holds(resolved, now, world) ? { session } : gone(session, world);
};

/** Does the deck, as it is flown now, still hold what is shown? */
const holds = (resolved: Resolved, now: Reading | Asking, world: World): boolean => {
  const variant = now.kind === 'read' ? now.variant : now.offer.variant;
  if (resolved.views.every(({ id }) => id !== variant)) return false;
  return now.kind === 'read' || now.offer.proves.every((key) => itemIn(world, key) !== undefined);
};
