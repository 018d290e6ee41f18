import type { Assignment } from '../../model/assignment.ts';
import type { Deck } from '../../model/deck.ts';
import { assignmentKey } from '../models/lacking.ts';
import type { Learner } from '../models/learner.ts';
import { type DeckLine, takeDeck } from './decks.ts';
import { coursesOf, heldOf, type Known, type Line } from './lines.ts';

/** What the trainee ticked, by setting or by deck id, where it is not as proposed. */
export type Choices = Readonly<Record<string, boolean>>;

export const isOn = (choices: Choices, { key, changes, own }: Line): boolean => changes && (choices[key] ?? !own);
export const isTaken = (choices: Choices, { assigned, on }: DeckLine): boolean =>
  on !== null && (choices[assigned.id] ?? on);

/** Somebody must still bring it. What could be had as it was assigned, and is not ticked, the trainee does not want. */
export const isLacking = (choices: Choices, line: DeckLine): boolean => {
  const { where } = line;
  if (where.is === 'came') return !where.exact && !isTaken(choices, line);
  return where.is === 'missing' || where.is === 'refused';
};

/** Addresses of what is wanted and not here yet. */
export const toFetch = (choices: Choices, decks: readonly DeckLine[]): readonly string[] =>
  decks.flatMap((line) => (line.where.is === 'host' && isTaken(choices, line) ? [line.where.address] : []));

/**
 * Sets up all that is ticked. The record that says so is written last: what breaks off in between is set up by opening
 * the assignment once more.
 * @param record false: only decks that were still missing are taken
 * @throws StoreProblem, or Error with words for people
 */
export const setUp = async (
  learner: Learner,
  assignment: Assignment,
  lines: readonly Line[],
  decks: readonly DeckLine[],
  choices: Choices,
  record: boolean,
): Promise<void> => {
  const wanted = lines.filter((line) => isOn(choices, line));
  // Before its deck, which is then flown so from the first.
  for (const { key, value } of wanted) if (key.startsWith('variants/')) await learner.set(key, value);
  for (const line of decks) if (isTaken(choices, line)) await takeDeck(learner, line);
  for (const { key, value } of wanted) if (!key.startsWith('variants/')) await learner.set(key, value);
  const courses = coursesOf(assignment);
  const lacking = decks.filter((line) => isLacking(choices, line)).map(({ assigned }) => assigned);
  if (record)
    for (const course of courses) await learner.set(assignmentKey(course), heldOf(assignment, lines, course, lacking));
  const [first] = courses;
  if (first !== undefined) learner.setCourse(first);
};

/**
 * Decks whose words can be told: those that are here, the one practised first, those that were fetched, and those that come
 * with the app.
 */
export const knownDecks = (learner: Learner, assignment: Assignment, decks: readonly DeckLine[]): Known => {
  const known = new Map<string, Deck>();
  for (const { id, contentId } of assignment.decks) {
    const all = learner.decks.value.filter((one) => one.id === id);
    const stored = all.find((one) => one.contentId === contentId) ?? all.find(({ active }) => active) ?? all.at(-1);
    if (stored !== undefined) known.set(id, JSON.parse(stored.text) as Deck);
  }
  for (const { where, assigned } of decks) {
    if (where.is === 'came') known.set(assigned.id, where.judged.deck);
    if (where.is === 'app' && where.deck !== undefined) known.set(assigned.id, where.deck);
  }
  return known;
};
