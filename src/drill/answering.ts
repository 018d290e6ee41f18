import { recallChance } from '../memory/fsrs.ts';
import { EASED } from '../memory/step.ts';
import type { Outcome } from '../memory/types.ts';
import type { Given, Offer } from '../model/form.ts';
import type { ItemKey } from '../model/item.ts';
import { answerEntry } from './answer-entry.ts';
import { APART, questionName } from './compose.ts';
import type { DrillEntry, DrillEvent, Reduced } from './events.ts';
import type { Answered, Asking, Draft, Session, Told } from './types.ts';
import { deckOf, type World } from './world.ts';

type EventOf<K extends DrillEvent['k']> = Extract<DrillEvent, { readonly k: K }>;

/** Marks an answer. @returns null where the deck is gone, or no longer holds the question */
export const answer = (session: Session, now: Asking, event: EventOf<'answer'>, world: World): Reduced | null => {
  const resolved = deckOf(world, now.deck);
  if (resolved === undefined) return null;
  const { deck, offer, shown, eased } = now;
  const { sure, unsure } = event;
  const chance = (key: ItemKey): number => {
    const known = world.memory.items.get(key);
    return known === undefined ? 0 : recallChance(known, world.day, world.memory.model);
  };
  const written = answerEntry(
    resolved,
    { ...event, drill: session.id, offer, shown, ...(eased && { help: EASED }) },
    chance,
  );
  if (written === null) return null;
  const { entry, given, marked } = written;
  const told: Told = {
    kind: 'verdict',
    deck,
    offer,
    shown,
    given,
    sure,
    unsure: [...unsure],
    marked,
    verdicts: {},
    entry: null,
    ...(eased && { eased }),
  };
  const answered: Answered = {
    entry: '',
    deck,
    form: offer.form,
    about: offer.about,
    sure,
    ms: entry.ms,
    g: marked.g,
    ease: offer.ease,
    items: offer.proves,
    verdicts: {},
    predicted: {},
  };
  return { session: { ...session, now: told, answered: [...session.answered, answered] }, entry };
};

/** The answer is in the log. @param outcome null where memory has to be folded anew first */
export const stored = (session: Session, entry: string, outcome: Outcome | null): Session => {
  const { now } = session;
  const last = session.answered.at(-1);
  if (last === undefined || last.entry !== '') return session;
  const told = now.kind === 'verdict' ? now : null;
  const verdicts = outcome?.verdicts ?? (told === null ? {} : withoutHistory(told));
  const missed = Object.keys(verdicts).filter(
    (key) => verdicts[key] === 'missed' && timesMissed(session, key) + 1 < MOST_MISSES,
  );
  return {
    ...session,
    now: told === null ? now : { ...told, entry, verdicts },
    answered: [...session.answered.slice(0, -1), { ...last, entry, verdicts, predicted: outcome?.predicted ?? {} }],
    back: withBack(session, missed, last),
  };
};

/** Missed so often in one drill, an item rests until the next: it would fill the minutes and not stay. */
const MOST_MISSES = 3;
const timesMissed = ({ answered }: Session, key: ItemKey): number =>
  answered.filter(({ verdicts, voided: why }) => why === undefined && verdicts[key] === 'missed').length;

/** Where memory could not say what the answer did: a wrong answer is missed, whatever came before. */
const withoutHistory = ({ marked: { marks }, sure }: Told): Answered['verdicts'] =>
  Object.fromEntries(
    Object.keys(marks)
      .filter((key) => sure === null || marks[key] === 'wrong' || marks[key] === 'told')
      .map((key) => [key, 'missed'] as const),
  );

/** Asked again as it stood, with all that was entered. */
export const unstored = (session: Session): Session => {
  const { now } = session;
  if (now.kind !== 'verdict' || now.entry !== null) return session;
  const { deck, offer, shown, given, eased } = now;
  return {
    ...session,
    now: {
      kind: 'ask',
      deck,
      offer,
      shown,
      draft: draftOf(given),
      elapsed: session.answered.at(-1)?.ms ?? 0,
      ...(eased && { eased }),
    },
    answered: session.answered.filter(({ entry }) => entry !== ''),
  };
};

const draftOf = (given: Given | null): Draft => {
  if (given === null) return {};
  // A paced run is played again, not gone on with.
  if ('acts' in given) return {};
  return 'typed' in given ? { typed: given.typed } : given;
};

/** Missed in this drill: back after five others, in another question where there is one. */
const withBack = (session: Session, keys: readonly ItemKey[], from: Pick<Offer, 'form' | 'about'>): Session['back'] => {
  const after = session.count + APART + 1;
  const not = questionName(from);
  const others = session.back.filter(({ key }) => !keys.includes(key));
  return [...others, ...keys.map((key) => ({ key, after, not }))];
};

/** Takes an answer out of what counts. @param of id of its log entry */
export const voided = (session: Session, now: Told, of: string, event: EventOf<'void'>): Reduced => {
  const note = event.note?.trim() ?? '';
  const entry: DrillEntry = {
    k: 'void',
    drill: session.id,
    of,
    why: event.why,
    ...(note !== '' && { note }),
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
          ? withBack(session, keys, now.offer)
          : session.back.filter(({ key }) => !keys.includes(key)),
    },
    entry,
  };
};
