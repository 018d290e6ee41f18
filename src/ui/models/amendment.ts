import { nextTurn, periodsFrom, revisionOn } from '../../deck/amend.ts';
import { dateWords, dayOfIso } from '../../lib/date-words.ts';
import type { Item } from '../../model/item.ts';
import { courseOf } from '../words.ts';
import { nextCheck } from './check-groups.ts';
import type { Learner } from './learner.ts';
import type { Held, Practised } from './revisions.ts';

/** What a newer revision of a deck in practice means to this learner. */
export interface AmendmentOf {
  readonly practised: Practised;
  /** The revision that was taken. */
  readonly chosen: Held;
  /** What it is held against: the last revision of which the learner saw what it changed, or the first of all. */
  readonly base: Held;
  /** Those between them, and the chosen one, the oldest first: each may have a note of its author. */
  readonly since: readonly Held[];
  readonly isSeen: boolean;
}

/** @returns null where the deck is not in practice, or no older revision of it is here */
export const amendmentOf = (learner: Learner, deckId: string): AmendmentOf | null => {
  const practised = learner.practised.value.find(({ chosen }) => chosen.id === deckId);
  const [chosen, ...older] = practised?.chain ?? [];
  if (practised === undefined || chosen === undefined) return null;
  const { seen } = learner.memory.value;
  const base = older.find(({ ref }) => seen.has(ref)) ?? older.at(-1);
  if (base === undefined) return null;
  const since = practised.chain.slice(0, practised.chain.indexOf(base)).reverse();
  return { practised, chosen, base, since, isSeen: seen.has(chosen.ref) };
};

export interface AnswersChanged {
  /** Asked by both, by another answer; questions that came, and went. */
  readonly changed: number;
  readonly added: number;
  readonly removed: number;
}

/** Counted as this learner flies the deck, by the questions that are asked. */
export const answersChanged = ({ practised, chosen, base }: AmendmentOf): AnswersChanged => {
  const [now, before] = [practised.by(chosen).items, practised.by(base).items];
  const joined = new Set(practised.by(chosen).aliases.keys());
  const subjects = (items: Iterable<Item>) => new Set([...items].map(({ thing, facet }) => `${thing}.${facet}`));
  const came = [...now.values()].filter((item) => !before.has(item.key));
  const went = [...before.values()].filter((item) => !now.has(item.key) && !joined.has(item.key));
  const [was, is] = [subjects(before.values()), subjects(now.values())];
  const keptOn = new Set([...practised.by(chosen).aliases].filter(([old]) => before.has(old)).map(([, key]) => key));
  const fresh = came.filter(({ key }) => !keptOn.has(key));
  const isIn = (all: ReadonlySet<string>, { thing, facet }: Item) => all.has(`${thing}.${facet}`);
  return {
    changed: fresh.filter((item) => isIn(was, item)).length,
    added: fresh.filter((item) => !isIn(was, item)).length,
    removed: went.filter((item) => !isIn(is, item)).length,
  };
};

/** Must it be shown before it is asked? Of other words alone nothing is said, unless the author does. */
export const isToTell = (amendment: AmendmentOf): boolean => {
  if (amendment.isSeen) return false;
  if (amendment.since.some(({ deck }) => deck.amendment !== undefined)) return true;
  const { changed, added, removed } = answersChanged(amendment);
  return changed + added + removed > 0;
};

/** When the answers of the chosen revision hold, and which are asked until then; a sentence each, empty where today's are all. */
export const datesOf = (learner: Learner, { practised, chosen }: AmendmentOf): string[] => {
  const { chain, stored } = practised;
  const today = learner.today();
  const check = nextCheck(learner, courseOf(stored.nature), stored.id, chosen.deck);
  const periods = periodsFrom(chain, today);
  const said = periods.slice(1).map(({ revision, from }) => {
    if (revision === chosen) return `In force from ${dateWords(from)}: until then the answers of before are right.`;
    const right = `From ${dateWords(from)} the answers of version ${revision.version} are right`;
    const began = dayOfIso(revision.deck.effective ?? '');
    return began !== null && began > today ? `${right}.` : `${right} again.`;
  });
  const turn = nextTurn(chain, today, check);
  const now = revisionOn(chain, today, check);
  const inForce = periods[0]?.revision;
  if (now !== inForce) said.push('Your check comes after that day and is near: you are asked what holds then.');
  else if (turn !== null && check !== null && turn <= check && !periods.some(({ from }) => from === turn))
    said.push(`Your check comes after that day: from ${dateWords(turn)} you are asked what holds then.`);
  return said;
};
