import { resolve } from '../../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import type { Deck, Limit, Node, Procedure, Rule, Scenario } from '../../../src/model/deck.ts';
import type {
  AnswerDetail,
  LimitShown,
  Marked,
  Offer,
  RunDetail,
  RunShown,
  ScenarioShown,
  Shown,
} from '../../../src/model/form.ts';
import type { Flown, Resolved } from '../../../src/subjects/resolved.ts';

/** Decks of a few things each. Every number in them is invented, unless a test says otherwise. */
const deckOf = (content: Partial<Deck>): Deck => ({
  format: 1,
  id: 'calder/small',
  version: '1.0.0',
  title: 'Small',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 'inv', title: 'Invented manual', edition: '2', basis: 'invented' }],
  ...content,
});

export const resolved = (content: Partial<Deck>, flown: Flown = {}): Resolved =>
  resolve(deckOf(content), 'c'.repeat(64), flown);

/** A flow of the steps, by default s0, s1, … in a row. */
export const flow = (steps: number | readonly Node[], more: Partial<Procedure> = {}): Procedure => ({
  id: 'flow',
  title: 'Flow',
  done: 'flow',
  steps: typeof steps === 'number' ? [...Array(steps).keys()].map((i) => ({ id: `s${i}`, do: word(i) })) : steps,
  ...more,
});

/** Words that give no order away. */
export const word = (i: number): string =>
  `${['Lamp', 'Valve', 'Pump', 'Bus', 'Fan', 'Door', 'Vent'][i % 7]} ${['amber', 'blue', 'grey', 'pink', 'rust', 'lime', 'teal', 'plum', 'sand'][Math.floor(i / 7)]}`;

export const limitDeck = (limit: Partial<Limit> & { readonly id?: string }, ...others: Limit[]): Resolved =>
  resolved({ limits: [{ id: 'one', ask: 'How fast?', ...limit } as Limit, ...others] });

export const scenarioDeck = (scenario: Partial<Scenario>, more: Partial<Deck> = {}): Resolved =>
  resolved({ scenarios: [{ id: 'case', situation: 'A case.', draw: {}, asks: [], ...scenario } as Scenario], ...more });

/** The whole of a procedure as one question, as in rehearsal. */
export const whole = (thing = 'flow', situation = '', variant = ''): Offer => ({
  form: 'run',
  about: { thing, situation },
  variant,
  proves: [],
  g: 0,
  seconds: 0,
  ease: 0,
  confusable: [],
  needs: 'right-once',
});

export function offerFor(all: Resolved, form: Offer['form'], want: (o: Offer) => boolean = () => true): Offer {
  const found = offers(all, null, 1).find((o) => o.form === form && want(o));
  if (!found) throw new Error(`no ${form} offer among ${JSON.stringify(offers(all, null, 1).map((o) => o.about))}`);
  return found;
}

function drawn<S extends Shown>(all: Resolved, offer: Offer, seed: number): S {
  const shown = draw(all, offer, seed);
  if (!shown) throw new Error(`nothing drawn for ${JSON.stringify(offer.about)}`);
  return shown as S;
}
export const drawnRun = (all: Resolved, offer: Offer, seed = 1): RunShown => drawn(all, offer, seed);
export const drawnLimit = (all: Resolved, offer: Offer, seed = 1): LimitShown => drawn(all, offer, seed);
export const drawnScenario = (all: Resolved, offer: Offer, seed = 1): ScenarioShown => drawn(all, offer, seed);

/** Marks by the facet of the thing: "s0.place" → right. */
export const marksOf = (marked: Marked): Record<string, string> =>
  Object.fromEntries(Object.entries(marked.marks).map(([key, m]) => [key.replace(/^.*#/, '').replace(/~.*$/, ''), m]));

export const runDetail = (marked: Marked): RunDetail => {
  if (marked.detail.form !== 'run') throw new Error('not a run');
  return marked.detail;
};
export const answerDetail = (marked: Marked): AnswerDetail => {
  const { detail } = marked;
  if (detail.form !== 'limit' && detail.form !== 'scenario') throw new Error(detail.form);
  return detail;
};

/** A number given to the only limit of a deck, or to the only number asked by its only scenario. */
export function given(all: Resolved, ...value: number[]): { marked: Marked; detail: AnswerDetail; mark: string } {
  const offer = offers(all, null, 1).find((o) => o.form === 'limit' && o.about.thing === 'one');
  if (!offer) throw new Error('no limit "one"');
  const marked = mark(all, offer, drawnLimit(all, offer), { typed: value.map(String), value });
  return { marked, detail: answerDetail(marked), mark: Object.values(marked.marks)[0] as string };
}

/** As people read it: no-break spaces as spaces. */
export const plain = (text: string | undefined): string | undefined => text?.replaceAll('\u00a0', ' ');

/** A rule of a scenario. @param when '' for one that always holds */
export const rule = (id: string, when: string, gives: readonly string[], more: Partial<Rule> = {}): Rule => ({
  id,
  ...(when !== '' && { if: when }),
  // biome-ignore lint/suspicious/noThenProperty: the deck's own word
  then: gives,
  ...more,
});
