import { readFileSync } from 'node:fs';
import { resolve } from '../../../src/deck/resolve.ts';
import { afterReading, type DrillEntry, reduce, startSession } from '../../../src/drill/session.ts';
import type { Asking, Session } from '../../../src/drill/types.ts';
import type { World } from '../../../src/drill/world.ts';
import { mark } from '../../../src/forms/registry.ts';
import { emptyMemory, type Folding, step } from '../../../src/memory/step.ts';
import type { Facts } from '../../../src/memory/types.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Entry } from '../../../src/model/entry.ts';
import type {
  Choice,
  CrewShown,
  DealtDetail,
  DifferenceShown,
  Drawn,
  Given,
  Shown,
  WordsDetail,
  WordsGiven,
} from '../../../src/model/form.ts';
import type { ItemKey, Sure } from '../../../src/model/item.ts';
import { evaluate } from '../../../src/subjects/formulas.ts';
import type { Flown, Resolved, View } from '../../../src/subjects/resolved.ts';

const deckNamed = (name: string): Deck => JSON.parse(readFileSync(`decks/${name}.deck.json`, 'utf8')) as Deck;
export const resolvedDeck = (name: string, flown: Flown = {}): Resolved =>
  resolve(deckNamed(name), 'a'.repeat(64), flown);

/** A Wednesday, ten in the morning UTC. */
const FIRST = Date.parse('2026-11-25T10:00:00Z');
export const FIRST_DAY = Math.floor(FIRST / 86_400_000);

/** One learner with a log and its fold, as the app keeps them. */
export interface Practice {
  readonly memory: Folding;
  readonly entries: Entry[];
  world(day: number, more?: Partial<World>): World;
  write(said: DrillEntry): { readonly id: string; readonly outcome: ReturnType<typeof step> };
  /** The clock: ms since the first drill. */
  at: number;
}

export const practiceOf = (decks: readonly Resolved[]): Practice => {
  const items = new Map(decks.flatMap((one) => [...one.items]));
  const facts: Facts = {
    of: (key) => ({ critical: items.get(key)?.critical ?? false, decision: items.get(key)?.facet === 'rule' }),
    today: (key) => key,
  };
  const memory = emptyMemory();
  const entries: Entry[] = [];
  const practice: Practice = {
    memory,
    entries,
    at: 0,
    world: (day, more = {}) => ({ decks, memory, day: FIRST_DAY + day, checkDay: null, ...more }),
    write: (said) => {
      const id = `t.${entries.length + 1}`;
      const entry = { v: 1, app: 'test', id, at: FIRST + practice.at, off: 0, ...said } as Entry;
      entries.push(entry);
      return { id, outcome: step(memory, entry, facts) };
    },
  };
  return practice;
};

/** What the simulated learner answers. */
export type Answerer = (now: Asking, world: World) => { readonly given: Given | null; readonly sure: Sure };

/** Without a look at the deck: always Don't know. */
export const knowsNothing: Answerer = () => ({ given: null, sure: null });

/** The right answer, from the deck. */
export const knowsAll: Answerer = (now, world) => ({ given: rightAnswer(now, world), sure: true });

/** @throws where the deck holds no right answer of this kind */
export const rightAnswer = ({ deck, offer, shown }: Asking, world: World): Given => {
  const resolved = world.decks.find(({ ref }) => ref === deck) as Resolved;
  const { thing } = offer.about;
  switch (shown.form) {
    case 'run': {
      const situation = viewOf(resolved, offer.variant)
        ?.procedures.find(({ procedure }) => procedure.id === thing)
        ?.situations.find(({ id }) => id === (offer.about.situation ?? ''));
      const ids = situation?.steps.map(({ step: { id } }) => id) ?? [];
      return { order: ids.filter((id) => offer.about.part?.includes(id) ?? true) };
    }
    case 'next':
      return { choice: offer.about.part?.[0] ?? '' };
    case 'limit':
    case 'value':
      return shown.choices.length > 0
        ? chosen(resolved, offer, shown)
        : number(casesOf(resolved, offer.variant, offer));
    case 'scenario':
    case 'rule':
      return shown.choices.length > 0 ? chosen(resolved, offer, shown) : computed(resolved, offer, shown.drawn);
    case 'before':
    case 'cue':
      return chosen(resolved, offer, shown);
    case 'callout':
    case 'list': {
      const { right } = mark(resolved, offer, shown, null).detail as WordsDetail;
      // Quotation marks stand around what is said.
      const said = right.text.replace(/^["“]|["”]$/g, '');
      const words: WordsGiven[] =
        shown.choices.length > 0 ? shown.choices.map(({ id: choice }) => ({ choice })) : [{ said }];
      return firstRight(
        resolved,
        offer,
        shown,
        words.flatMap((one) => (shown.seats.length > 0 ? shown.seats.map(({ id: by }) => ({ ...one, by })) : [one])),
      );
    }
    case 'crew':
      return dealt(resolved, offer, shown);
    case 'slip':
      return { lines: shown.faults.flatMap(({ lines }) => lines.slice(0, 1)) };
    case 'difference': {
      if (shown.fields.length === 0) return dealt(resolved, offer, shown);
      const [first = '', second = ''] = (offer.about.way ?? '').split('|');
      const [value, other] = [casesOf(resolved, first, offer), otherCase(resolved, second, offer)];
      return number([...value, ...other]);
    }
    case 'paced':
      throw new Error('no drill puts a paced run');
  }
};

/** Each row to the seat that the verdict names. */
const dealt = (resolved: Resolved, offer: Asking['offer'], shown: CrewShown | DifferenceShown): Given => {
  const { rows } = mark(resolved, offer, shown, null).detail as DealtDetail;
  const seatOf = (label: string): string => shown.seats.find(({ text }) => text === label)?.id ?? '';
  return { deal: Object.fromEntries(rows.map(({ id, right }) => [id, seatOf(right)])) };
};

const viewOf = (resolved: Resolved, id: string) => resolved.views.find((view) => view.id === id);
const number = (value: readonly number[]): Given => ({ value, typed: value.map((x) => String(x)) });

const casesOf = (resolved: Resolved, view: string, { about }: Asking['offer']): readonly number[] => {
  const limit = viewOf(resolved, view)?.limits.find((one) => one.limit.id === about.thing);
  const found = limit?.cases.find(({ id }) => id === about.case) ?? limit?.cases[0];
  if (found === undefined || typeof found.value === 'string') throw new Error(`no case ${JSON.stringify(about)}`);
  return found.value;
};

/** What the other of two variants says under the same circumstances: its item is the second that is proved. */
const otherCase = (resolved: Resolved, view: string, { about, proves }: Asking['offer']): readonly number[] => {
  const limit = viewOf(resolved, view)?.limits.find((one) => one.limit.id === about.thing);
  const found = limit?.cases.find(({ key }) => key === proves[1]);
  if (found === undefined || typeof found.value === 'string') throw new Error(`no case ${JSON.stringify(about)}`);
  return found.value;
};

const computed = (resolved: Resolved, { about, variant }: Asking['offer'], drawn: Drawn): Given => {
  const view = viewOf(resolved, variant) as View;
  const scenario = view.scenarios.find((one) => one.scenario.id === about.thing);
  const ask = scenario?.asks.find((one) => one.ask.id === about.case);
  if (scenario === undefined || ask === undefined || !('number' in ask)) throw new Error(JSON.stringify(about));
  const names = { ...drawn };
  for (const { name, tree } of scenario.lets) names[name] = evaluate(tree, names, view) as number;
  return number([evaluate(ask.number, names, view) as number]);
};

/** By trying: the one that the marking takes for right. */
const chosen = (resolved: Resolved, offer: Asking['offer'], shown: Shown): Given => {
  const { choices = [] } = shown as { choices?: readonly Choice[] };
  return firstRight(
    resolved,
    offer,
    shown,
    choices.map(({ id }) => ({ choice: id })),
  );
};

const firstRight = (resolved: Resolved, offer: Asking['offer'], shown: Shown, all: readonly Given[]): Given => {
  const right = all.find((given) => !mark(resolved, offer, shown, given).flawed);
  if (right === undefined) throw new Error(`nothing is right: ${JSON.stringify(shown)}`);
  return right;
};

export interface Played {
  readonly session: Session;
  /** Every state that the drill was in, in order. */
  readonly states: readonly Session[];
  /** Questions in order. */
  readonly asked: readonly Asking[];
  /** s at which each question was put. */
  readonly times: readonly number[];
}

export interface Pace {
  /** s of reading a thing, of a question, of its verdict. */
  readonly read: number;
  readonly answer: number;
  readonly verdict: number;
}
const PACE: Pace = { read: 6, answer: 10, verdict: 4 };

/** Plays a drill to its end, as the app does. @throws after 1,000 turns: it would never end */
export const play = (
  practice: Practice,
  day: number,
  answerer: Answerer,
  {
    seconds = 600,
    seed = 7,
    course = 'real',
    pace = PACE,
    ...more
  }: Partial<World> & {
    readonly seconds?: number;
    readonly seed?: number;
    readonly course?: string;
    readonly pace?: Pace;
  } = {},
): Played => {
  practice.at = day * 86_400_000;
  const world = practice.world(day, more);
  let session = startSession({ id: `d${day}-${seed}`, course, started: FIRST + practice.at, seconds, seed }, world);
  const states = [session];
  const asked: Asking[] = [];
  const times: number[] = [];
  const turn = (next: Session) => {
    session = next;
    states.push(next);
  };
  const pass = (s: number) => {
    practice.at += s * 1000;
    turn(reduce(session, { k: 'time', seconds: s }, world).session);
  };
  for (let i = 0; session.now.kind !== 'done'; i++) {
    if (i > 1000) throw new Error('the drill does not end');
    const { now } = session;
    if (now.kind === 'read') {
      pass(pace.read * now.things.length);
      const { session: next, entry } = reduce(session, { k: 'read' }, world);
      practice.write(entry as DrillEntry);
      turn(afterReading(next, world));
      continue;
    }
    if (now.kind === 'ask') {
      asked.push(now);
      times.push(session.used);
      const { given, sure } = answerer(now, world);
      pass(pace.answer);
      const told = reduce(session, { k: 'answer', given, sure, unsure: [], ms: pace.answer * 1000 }, world);
      turn(told.session);
      const { id, outcome } = practice.write(told.entry as DrillEntry);
      turn(reduce(session, { k: 'stored', entry: id, outcome }, world).session);
      pass(pace.verdict);
    }
    turn(reduce(session, { k: 'next' }, world).session);
  }
  return { session, states, asked, times };
};

/** Items asked, question by question. */
export const itemsAsked = ({ asked }: Played): (readonly ItemKey[])[] => asked.map(({ offer }) => offer.proves);
