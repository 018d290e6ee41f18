/** What the learner picks from: own steps among others, six at a time, so dealt that their places give nothing away. */
import { foldText } from '../lib/fold-text.ts';
import { below, type Random, seeded, shuffled } from '../lib/random.ts';
import { isTwin } from '../lib/twin.ts';
import type { Id } from '../model/deck.ts';
import type { Course, Plan } from './course.ts';

/** Buttons at a time. */
export const MOST_BUTTONS = 6;
/** Own steps among them, unless more are due. */
const OWN = 3;

export interface Button {
  readonly id: Id;
  readonly text: string;
  readonly own: boolean;
}
/** Places stay where they are: a step that was done is replaced by another, mostly not at its own place. */
export interface Hand {
  readonly buttons: readonly Button[];
  /** Buttons dealt so far: the next die. */
  readonly dealt: number;
  readonly seed: number;
}

/**
 * What is not the learner's to do: steps of the others, and what does not belong. None that says what an own step says, or
 * what another of them says, or the same but for a letter here and there: "Hand away", "Hands away".
 */
export function othersOf(
  plan: Plan,
  strangers: readonly { readonly id: Id; readonly text: string }[],
): readonly Button[] {
  const taken = new Set(
    plan.steps
      .filter(({ who }) => who !== 'other')
      .flatMap(({ text, run: { step } }) => [text, ...(step.alsoSay ?? []), ...(step.alsoDo ?? []), step.say ?? text]),
  );
  const said = [...taken].map(foldText);
  const out: Button[] = [];
  for (const { id, text } of [...plan.steps.filter(({ who }) => who === 'other'), ...strangers]) {
    const key = foldText(text);
    if (said.some((one) => isTwin(one, key))) continue;
    said.push(key);
    out.push({ id, text, own: false });
  }
  return out;
}

const isWaiting = (c: Course, id: Id): boolean => !Object.hasOwn(c.done, id) && !Object.hasOwn(c.dropped, id);

/** Own steps to be shown: those that are due, then those that come next, one of each wording. */
function ownNow(plan: Plan, c: Course): Button[] {
  const waiting = plan.expected.flatMap((id) => {
    const step = plan.steps.find((one) => one.id === id);
    const may = step !== undefined && isWaiting(c, id) && (step.holds !== 'failed' || c.failed !== null);
    return may ? [step] : [];
  });
  const due = waiting.filter(({ id }) => Object.hasOwn(c.cues, id));
  const next = waiting.filter(({ id }) => !Object.hasOwn(c.cues, id));
  const out: Button[] = [];
  for (const { id, text } of [...due.slice(0, MOST_BUTTONS - 1), ...next]) {
    if (out.length >= Math.max(OWN, Math.min(due.length, MOST_BUTTONS - 1))) break;
    if (!out.some((one) => foldText(one.text) === foldText(text))) out.push({ id, text, own: true });
  }
  return out;
}

const from = (random: Random, list: readonly Button[], hand: readonly Button[]): Button | undefined => {
  const free = list.filter(({ id }) => hand.every((one) => one.id !== id));
  return free.length === 0 ? undefined : free[below(random, free.length)];
};

export function firstHand(plan: Plan, course: Course, others: readonly Button[], seed: number): Hand {
  const random = seeded(`${seed} hand`);
  const own = ownNow(plan, course);
  const rest = shuffled(random, others).slice(0, MOST_BUTTONS - own.length);
  return { buttons: shuffled(random, [...own, ...rest]), dealt: 0, seed };
}

/**
 * After something was done, given up, or came: places whose button stays keep it.
 * @returns the same hand where nothing changes
 */
export function nextHand(plan: Plan, course: Course, others: readonly Button[], hand: Hand): Hand {
  const own = ownNow(plan, course);
  const wanted = own.filter(({ id }) => hand.buttons.every((one) => one.id !== id));
  // An own step that is not among those to be shown now stays while there is room for it.
  const gone = hand.buttons.flatMap((one, i) => (one.own && !isWaiting(course, one.id) ? [i] : []));
  if (wanted.length === 0 && gone.length === 0) return hand;
  const random = seeded(`${hand.seed} ${hand.dealt + 1}`);
  const buttons = [...hand.buttons];
  const free = [...gone];
  const spare = (): Button | undefined => from(random, others, [...hand.buttons, ...buttons]);
  for (const button of wanted) {
    const strangers = buttons.flatMap((one, i) => (!one.own && !free.includes(i) ? [i] : []));
    const swap = free.length === 0 || (strangers.length > 1 && spare() !== undefined && below(random, 2) === 0);
    const at = swap ? strangers[below(random, Math.max(1, strangers.length))] : free.shift();
    if (at !== undefined) buttons[at] = button;
  }
  for (const i of free) {
    const other = spare();
    if (other !== undefined) buttons[i] = other;
  }
  const left = buttons.filter((one, i) => !(free.includes(i) && one.own && !isWaiting(course, one.id)));
  return { buttons: left, dealt: hand.dealt + 1, seed: hand.seed };
}
