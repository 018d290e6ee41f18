import { resolve } from '../deck/resolve.ts';
import { draw, mark, offers } from '../forms/registry.ts';
import { readWay } from '../forms/slip/plans.ts';
import type { Tree } from '../formula/tree.ts';
import type { Deck, Id } from '../model/deck.ts';
import { isNumberAsk } from '../model/deck.ts';
import type { FaultKind, FormId, Given, Offer, Shown } from '../model/form.ts';
import type { Sure } from '../model/item.ts';
import type { Flown, Resolved, View } from '../subjects/resolved.ts';
import type { Told } from './types.ts';

/** A question of a deck that is being written, as a learner would meet it; nothing of it is logged or remembered. */
export interface Trial {
  /** What sets it apart from the other questions about the same thing. */
  readonly words: string;
  readonly offer: Offer;
}

export interface Tried {
  readonly resolved: Resolved;
  /** The view in which it is tried: "TK-11, Calder Coast"; '' where there is but one. */
  readonly label: string;
  readonly trials: readonly Trial[];
}

/** No deck that is installed has this content id: what is tried is of no revision. */
const NONE = '0'.repeat(64);

/**
 * Every question about one procedure, limit or scenario, in the order in which learners meet them.
 * @param deck of right shape; what the checker finds fault with is left out where it cannot be resolved
 * @param thing id of a procedure, limit or scenario
 * @param step only questions that hold this step; those that begin with it first
 */
export const trialsOf = (deck: Deck, flown: Flown, thing: Id, step?: Id): Tried => {
  const resolved = resolve(deck, NONE, flown);
  const view = resolved.views[0];
  const mine = offers(resolved, null, 1).filter(
    ({ about }) =>
      (about.thing === thing || about.procedure === thing) &&
      (step === undefined || about.part === undefined || about.part.includes(step)),
  );
  const late = ({ needs, about }: Offer) =>
    (needs === 'read' ? 0 : 2) + (step === undefined || about.part?.[0] === step ? 0 : 1);
  mine.sort((a, b) => late(a) - late(b));
  return {
    resolved,
    label: view?.label ?? '',
    trials: mine.map((offer) => ({ offer, words: view === undefined ? '' : wordsOf(deck, view, offer) })),
  };
};

const stepWords = (view: View, { about }: Offer, id: Id | undefined): string =>
  view.procedures
    .find(({ procedure }) => procedure.id === (about.procedure ?? about.thing))
    ?.situations.find((one) => one.id === (about.situation ?? ''))
    ?.steps.find(({ step }) => step.id === id)?.text ?? '';

/** What sets a situation apart, in words: "Engine failure, Flaps 1"; '' where there is but one. */
const situationWords = (deck: Deck, { procedures }: View, { about }: Offer): string => {
  const found = procedures.find(({ procedure }) => procedure.id === (about.procedure ?? about.thing));
  if (found === undefined || found.situations.length < 2) return '';
  const index = found.situations.findIndex(({ id }) => id === (about.situation ?? ''));
  const truths = [...(about.situation ?? '')];
  const named = found.conditions.flatMap((tree, i) => conditionWords(deck, tree, truths[i] === '1') ?? []);
  const isAll = named.length === found.conditions.length;
  return ` (${isAll ? [...new Set(named)].join(', ') : `circumstances ${index + 1}`})`;
};

/** Of a yes/no condition, or its opposite, the deck's own words; null for other formulas. */
const conditionWords = (deck: Deck, tree: Tree, holds: boolean): string | null => {
  const isOpposite = tree.kind === 'unary' && tree.op === '!';
  const inner = isOpposite ? tree.of : tree;
  const condition = inner.kind === 'name' ? deck.conditions?.find(({ id }) => id === inner.name) : undefined;
  if (condition === undefined || !('yes' in condition)) return null;
  return holds === isOpposite ? condition.no : condition.yes;
};

const WAYS: Readonly<Record<Exclude<FormId, 'run' | 'next' | 'limit' | 'scenario'>, string>> = {
  before: 'What must be done first',
  slip: 'Find the slip',
  cue: 'What it waits for',
  callout: 'What is said',
  list: 'The list',
  crew: 'Who does what',
  value: 'The number, in its step',
  rule: 'The rule, in its step',
  difference: 'What differs between variants',
  paced: 'In time',
};

const SLIPS: Readonly<Record<FaultKind, string>> = {
  swapped: 'out of order',
  missing: 'left out',
  stranger: 'beside what does not belong',
  variant: 'beside a step of another variant',
  value: 'wrong number',
  crew: 'wrong crew member',
};

/** Where a form asks in several ways: by form and way. */
const BY_WAY: Readonly<Record<string, string>> = {
  'cue calls': 'What the cue calls for',
  'callout typed': 'What is said, typed',
  'list which': 'Which list it is',
  'list call': 'What calls for it, typed',
  'list call-picked': 'What calls for it',
  'list caller': 'Who calls for it',
  'list response': 'What is answered, typed',
  'list response-picked': 'What is answered',
};

function wordsOf(deck: Deck, view: View, offer: Offer): string {
  const { about, form } = offer;
  const first = about.part?.[0];
  switch (form) {
    case 'run':
      return `${
        about.part === undefined
          ? 'All of it in order'
          : `In order: ${stepWords(view, offer, first)} … ${stepWords(view, offer, about.part.at(-1))}`
      }${situationWords(deck, view, offer)}`;
    case 'next':
      return `What comes next: ${stepWords(view, offer, first)}${situationWords(deck, view, offer)}`;
    case 'limit': {
      const limit = view.limits.find((one) => one.limit.id === about.thing);
      return limit?.cases.find(({ id }) => id === about.case)?.given || 'The value';
    }
    case 'scenario': {
      const asks = view.scenarios.find(({ scenario }) => scenario.id === about.thing)?.asks ?? [];
      const ask = asks.find((one) => one.ask.id === about.case)?.ask;
      if (ask === undefined) return '';
      if (isNumberAsk(ask)) return ask.ask;
      // The rule's number, not what it gives: that is the answer.
      const rule = ask.choose.rules.findIndex(({ id }) => id === about.rule);
      return rule < 0 ? ask.ask : `${ask.ask} Rule ${rule + 1}`;
    }
    case 'slip': {
      // Which slips: it is the author who tries it, and many stand in the same run.
      const slips = readWay(about.way ?? '').map(
        ({ kind, step, case: of }) =>
          `${stepWords(view, offer, step)} (${[SLIPS[kind], of].filter(Boolean).join(' ')})`,
      );
      return `${WAYS.slip}: ${slips.join(', ')}${situationWords(deck, view, offer)}`;
    }
    default: {
      const step = about.part?.map((id) => stepWords(view, offer, id)).filter((text) => text !== '')[0];
      const ways = BY_WAY[`${form} ${about.way ?? ''}`] ?? WAYS[form];
      return `${ways}${step === undefined ? '' : `: ${step}`}${situationWords(deck, view, offer)}`;
    }
  }
}

/** @returns null where nothing can be drawn: what is required is met too rarely */
export const askTrial = ({ resolved }: Tried, { offer }: Trial, seed: number): Shown | null =>
  draw(resolved, offer, seed);

/** @param given null = Don't know */
export const markTrial = (
  { resolved }: Tried,
  { offer }: Trial,
  shown: Shown,
  said: { readonly given: Given | null; readonly sure: Sure; readonly unsure: readonly Id[] },
): Told => ({
  kind: 'verdict',
  deck: resolved.ref,
  offer,
  shown,
  ...said,
  marked: mark(resolved, offer, shown, said.given),
  verdicts: {},
  entry: null,
});
