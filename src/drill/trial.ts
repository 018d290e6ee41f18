import { resolve } from '../deck/resolve.ts';
import { draw, mark, offers } from '../forms/registry.ts';
import type { Deck, Id } from '../model/deck.ts';
import { isNumberAsk } from '../model/deck.ts';
import type { Given, Offer, Shown } from '../model/form.ts';
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
      about.thing === thing && (step === undefined || about.part === undefined || about.part.includes(step)),
  );
  const late = ({ needs, about }: Offer) =>
    (needs === 'read' ? 0 : 2) + (step === undefined || about.part?.[0] === step ? 0 : 1);
  mine.sort((a, b) => late(a) - late(b));
  return {
    resolved,
    label: view?.label ?? '',
    trials: mine.map((offer) => ({ offer, words: view === undefined ? '' : wordsOf(view, offer) })),
  };
};

const stepWords = (view: View, { about }: Offer, id: Id | undefined): string =>
  view.procedures
    .find(({ procedure }) => procedure.id === about.thing)
    ?.situations.find((one) => one.id === (about.situation ?? ''))
    ?.steps.find(({ step }) => step.id === id)?.text ?? '';

const situationWords = ({ procedures }: View, { about }: Offer): string => {
  const found = procedures.find(({ procedure }) => procedure.id === about.thing);
  const several = (found?.situations.length ?? 0) > 1;
  const index = found?.situations.findIndex(({ id }) => id === (about.situation ?? '')) ?? -1;
  return several ? ` (circumstances ${index + 1})` : '';
};

function wordsOf(view: View, offer: Offer): string {
  const { about, form } = offer;
  const first = about.part?.[0];
  switch (form) {
    case 'run':
      return `${
        about.part === undefined
          ? 'All of it in order'
          : `In order: ${stepWords(view, offer, first)} … ${stepWords(view, offer, about.part.at(-1))}`
      }${situationWords(view, offer)}`;
    case 'next':
      return `What comes next: ${stepWords(view, offer, first)}${situationWords(view, offer)}`;
    case 'limit': {
      const limit = view.limits.find((one) => one.limit.id === about.thing);
      return limit?.cases.find(({ id }) => id === about.case)?.given || 'The value';
    }
    case 'scenario': {
      const asks = view.scenarios.find(({ scenario }) => scenario.id === about.thing)?.asks ?? [];
      const ask = asks.find((one) => one.ask.id === about.case)?.ask;
      if (ask === undefined) return '';
      const rule = isNumberAsk(ask) ? undefined : ask.choose.rules.find(({ id }) => id === about.rule);
      if (isNumberAsk(ask) || rule === undefined) return ask.ask;
      return `${ask.ask} → ${rule.then.map((id) => ask.choose.options[id] ?? id).join(' or ')}`;
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
