import { MARKER_VERSION, mark } from '../forms/registry.ts';
import { recallChance } from '../memory/fsrs.ts';
import type { Outcome } from '../memory/types.ts';
import type { AnswerEntry, ReadEntry, VoidEntry } from '../model/entry.ts';
import type { Given } from '../model/form.ts';
import type { ItemKey, Sure } from '../model/item.ts';
import { APART, compose } from './compose.ts';
import type { Draft, Now, Session } from './types.ts';
import { deckOf, itemIn, type World } from './world.ts';

type Unsaid = 'v' | 'id' | 'app' | 'at' | 'off';
/** What a drill adds to the log; when and by whom is said by others. */
export type DrillEntry = Omit<AnswerEntry, Unsaid> | Omit<ReadEntry, Unsaid> | Omit<VoidEntry, Unsaid>;

export interface Start {
  readonly id: string;
  readonly course: string;
  /** UTC ms. */
  readonly started: number;
  /** s that the drill may take. */
  readonly seconds: number;
  /** 32 bits. */
  readonly seed: number;
}

export type DrillEvent =
  /** What is shown has been read. */
  | { readonly k: 'read' }
  | { readonly k: 'draft'; readonly draft: Draft }
  /** Visible time went by, s. */
  | { readonly k: 'time'; readonly seconds: number }
  | {
      readonly k: 'answer';
      /** null: Don't know. */
      readonly given: Given | null;
      readonly sure: Sure;
      /** Ids of the steps named as not sure; empty: all. */
      readonly unsure: readonly string[];
      /** Visible time from question to answer, ms. */
      readonly ms: number;
      readonly help?: string;
    }
  /** The answer is in the log, and this is what it did. */
  | { readonly k: 'stored'; readonly entry: string; readonly outcome: Outcome | null }
  /** The answer never reached the log: it is asked again as it stood. */
  | { readonly k: 'unstored' }
  | { readonly k: 'next' }
  | { readonly k: 'void'; readonly why: 'mis-tap' | 'query'; readonly note?: string }
  | { readonly k: 'enough' }
  /** Taken up again: decks may have changed meanwhile. */
  | { readonly k: 'resume' };

export interface Reduced {
  readonly session: Session;
  /** To be written to the log. */
  readonly entry?: DrillEntry;
  /** Something that the learner should be told. */
  readonly said?: 'gone';
}

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
  return { ...blank, now: compose(blank, world) };
};

/** What an event makes of a drill. Pure: neither clock nor dice; events that do not fit what is shown change nothing. */
export const reduce = (session: Session, event: DrillEvent, world: World): Reduced => {
  const { now } = session;
  switch (event.k) {
    case 'time':
      return { session: spend(session, event.seconds) };
    case 'draft':
      return now.kind === 'ask' ? { session: { ...session, now: { ...now, draft: event.draft } } } : { session };
    case 'read':
      return now.kind === 'read' ? read(session, world) : { session };
    case 'answer':
      return now.kind === 'ask' ? answer(session, event, world) : { session };
    case 'stored':
      return { session: stored(session, event.entry, event.outcome) };
    case 'unstored':
      return { session: unstored(session) };
    case 'next':
      return now.kind === 'verdict' ? { session: put(session, world) } : { session };
    case 'void':
      return now.kind === 'verdict' && now.entry !== null && now.voided === undefined
        ? voided(session, now.entry, event)
        : { session };
    case 'enough':
      return { session: { ...session, now: { kind: 'done', why: 'enough' } } };
    case 'resume':
      return resume(session, world);
  }
};

const spend = (session: Session, seconds: number): Session => {
  if (!(seconds > 0)) return session;
  const { now } = session;
  const elapsed = now.kind === 'ask' ? { now: { ...now, elapsed: now.elapsed + seconds * 1000 } } : {};
  return { ...session, ...elapsed, used: session.used + seconds };
};

const put = (session: Session, world: World): Session => {
  const count = session.count + 1;
  const next = { ...session, count };
  const now = compose(next, world);
  // What comes back now is not due to come back any more.
  const asked = new Set(now.kind === 'ask' ? now.offer.proves : []);
  return { ...next, now, back: next.back.filter(({ key, after }) => !(asked.has(key) && after <= count)) };
};

const read = (session: Session, world: World): Reduced => {
  const now = session.now as Extract<Now, { kind: 'read' }>;
  const resolved = deckOf(world, now.deck);
  if (resolved === undefined) return { session: put(session, world), said: 'gone' };
  const things = new Set(now.things);
  const met = [...resolved.items.values()].filter(
    ({ thing, key }) => things.has(thing) && !world.memory.items.has(key),
  );
  const entry: DrillEntry = { k: 'read', drill: session.id, deck: now.deck, about: [...now.things] };
  // The question that follows is put once the log holds the reading: see `stored`, then `next`.
  return { session: { ...session, met: [...new Set([...session.met, ...met.map(({ key }) => key)])] }, entry };
};

/** After a reading was stored: the first question about it. */
export const afterReading = (session: Session, world: World): Session => put(session, world);

const answer = (session: Session, event: Extract<DrillEvent, { k: 'answer' }>, world: World): Reduced => {
  const now = session.now as Extract<Now, { kind: 'ask' }>;
  const resolved = deckOf(world, now.deck);
  if (resolved === undefined) return { session: put(session, world), said: 'gone' };
  const { offer, shown } = now;
  const given = event.sure === null ? null : event.given;
  const chance = (key: ItemKey): number => {
    const known = world.memory.items.get(key);
    return known === undefined ? 0 : recallChance(known, world.day);
  };
  const marked = mark(resolved, offer, shown, given, chance);
  const unsure = event.sure === false && event.unsure.length > 0 ? { unsure: [...event.unsure] } : {};
  const entry: DrillEntry = {
    k: 'answer',
    drill: session.id,
    deck: now.deck,
    form: offer.form,
    about: offer.about,
    variant: offer.variant,
    shown,
    given,
    sure: event.sure,
    ...unsure,
    ms: Math.round(event.ms),
    ...(event.help === undefined ? {} : { help: event.help }),
    marks: marked.marks,
    ...(marked.flawed ? { flawed: true as const } : {}),
    g: marked.g,
    mv: MARKER_VERSION,
  };
  return {
    session: {
      ...session,
      now: {
        kind: 'verdict',
        deck: now.deck,
        offer,
        shown,
        given,
        sure: event.sure,
        unsure: event.unsure,
        marked,
        verdicts: {},
        entry: null,
      },
      answered: [
        ...session.answered,
        {
          entry: '',
          deck: now.deck,
          form: offer.form,
          about: offer.about,
          sure: event.sure,
          ms: event.ms,
          verdicts: {},
          predicted: {},
        },
      ],
    },
    entry,
  };
};

const stored = (session: Session, entry: string, outcome: Outcome | null): Session => {
  const { now } = session;
  const last = session.answered.at(-1);
  if (now.kind !== 'verdict' || last === undefined || last.entry !== '') return session;
  const verdicts = outcome?.verdicts ?? {};
  const predicted = outcome?.predicted ?? {};
  const missed = Object.keys(verdicts).filter((key) => verdicts[key] === 'missed');
  return {
    ...session,
    now: { ...now, entry, verdicts },
    answered: [...session.answered.slice(0, -1), { ...last, entry, verdicts, predicted }],
    back: withBack(session, missed, last.form),
  };
};

const unstored = (session: Session): Session => {
  const { now } = session;
  if (now.kind !== 'verdict' || now.entry !== null) return session;
  const { deck, offer, shown } = now;
  return {
    ...session,
    now: { kind: 'ask', deck, offer, shown, draft: {}, elapsed: 0 },
    answered: session.answered.filter(({ entry }) => entry !== ''),
  };
};

/** Missed in this drill: back after five others, in another form where there is one. */
const withBack = (session: Session, keys: readonly ItemKey[], form: string): Session['back'] => {
  const after = session.count + APART + 1;
  const others = session.back.filter(({ key }) => !keys.includes(key));
  return [...others, ...keys.map((key) => ({ key, after, not: form }))];
};

const voided = (session: Session, of: string, event: Extract<DrillEvent, { k: 'void' }>): Reduced => {
  const now = session.now as Extract<Now, { kind: 'verdict' }>;
  const entry: DrillEntry = {
    k: 'void',
    drill: session.id,
    of,
    why: event.why,
    ...(event.note === undefined || event.note.trim() === '' ? {} : { note: event.note.trim() }),
  };
  const keys = now.offer.proves;
  return {
    session: {
      ...session,
      now: { ...now, voided: event.why },
      answered: session.answered.map((one) => (one.entry === of ? { ...one, voided: event.why } : one)),
      // A queried question is not put again today.
      back:
        event.why === 'mis-tap'
          ? withBack(session, keys, now.offer.form)
          : session.back.filter(({ key }) => !keys.includes(key)),
    },
    entry,
  };
};

const resume = (session: Session, world: World): Reduced => {
  const { now } = session;
  if (now.kind === 'done') return { session };
  const resolved = deckOf(world, now.deck);
  const holds =
    resolved !== undefined &&
    (now.kind === 'read' || now.offer.proves.every((key) => itemIn(world, key) !== undefined));
  // A verdict is only looked at: it needs no deck.
  if (holds || now.kind === 'verdict') return { session };
  return { session: put(session, world), said: 'gone' };
};
