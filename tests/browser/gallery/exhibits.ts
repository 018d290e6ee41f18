import { readFileSync } from 'node:fs';
import { resolve } from '../../../src/deck/resolve.ts';
import type { Draft, Told } from '../../../src/drill/types.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import type { Deck } from '../../../src/model/deck.ts';
import {
  type About,
  type CrewGiven,
  type CrewShown,
  FORM_IDS,
  type Given,
  type Offer,
  type RunShown,
  type Shown,
  type SlipShown,
} from '../../../src/model/form.ts';
import type { Flown, Resolved } from '../../../src/subjects/resolved.ts';
import { givenOf } from '../../../src/ui/forms/given.ts';
import type { Exhibit } from './main.tsx';
import { fromRightToLeft, inFortyWords } from './odd.ts';

/** Of the invented aeroplane: one engine, one operator, as most learners fly. */
const FLOWN = { engine: ['tk11'], operator: ['calder'] };

/** Of who flies them all it is asked, too, what differs. */
const EVERY = { engine: ['tk11', 'tk14'], operator: ['calder', 'fellwater'] };

const decks = new Map<string, Resolved>();
const deckNamed = (name: string, flown: Flown = FLOWN): Resolved => {
  const known = decks.get(name + JSON.stringify(flown));
  if (known !== undefined) return known;
  const deck = JSON.parse(readFileSync(new URL(`../../../decks/${name}.deck.json`, import.meta.url), 'utf8')) as Deck;
  const resolved = resolve(deck, 'a'.repeat(64), /^merrow/.test(name) ? flown : {});
  decks.set(name + JSON.stringify(flown), resolved);
  return resolved;
};

/** A question as the drill would put it. */
interface Put {
  readonly resolved: Resolved;
  readonly offer: Offer;
  readonly shown: Shown;
}

/**
 * The question about a thing of a demonstration deck that exercises most, drawn with a seed.
 * @throws where the deck has none
 */
const put = (
  deck: string,
  { form, ...about }: Partial<About> & { form?: Offer['form'] },
  flown: Flown = FLOWN,
  seed = 7,
): Put => {
  const resolved = deckNamed(deck, flown);
  const wanted = Object.entries(about);
  const offer = offers(resolved, null, 1)
    .filter((one) => form === undefined || one.form === form)
    .filter((one) => wanted.every(([name, value]) => String(one.about[name as keyof About]) === String(value)))
    .sort((a, b) => b.proves.length - a.proves.length)[0];
  const shown = offer === undefined ? null : draw(resolved, offer, seed);
  if (offer === undefined || shown === null) throw new Error(`${deck} asks nothing about ${JSON.stringify(about)}`);
  return { resolved, offer, shown };
};

/** The verdict on an answer; null: Don't know. */
const toldOf = ({ resolved, offer, shown }: Put, given: Given | null): Told => ({
  kind: 'verdict',
  deck: resolved.deck.id,
  offer,
  shown,
  given,
  sure: given === null ? null : true,
  unsure: [],
  marked: mark(resolved, offer, shown, given),
  verdicts: {},
  entry: null,
});

/** What is given by typing so many numbers. */
const typed = (one: Put, ...texts: string[]): Given | null => givenOf(one.shown, { typed: texts });

/** Ids of the steps of a run in a right order, and of those that do not belong. */
const stepsOf = (one: Put): { readonly right: string[]; readonly strangers: string[] } => {
  const { detail } = mark(one.resolved, one.offer, one.shown, null);
  if (detail.form !== 'run') throw new Error('no run');
  const ids = (is: boolean) => detail.chips.filter(({ id }) => id.startsWith('stranger-') === is).map(({ id }) => id);
  return { right: ids(false), strangers: ids(true) };
};

/** As long as a run may become, with texts that a stranger might write. */
export const longest: RunShown = {
  form: 'run',
  title: 'A procedure of twelve rows',
  scene: ['Cleared for take-off, runway 27', 'Engine **TK-11**', 'Fuel on board 5.4 t, assumed temperature 38 °C'],
  drawn: {},
  before: ['Landing lights on', 'Transponder to TA/RA'],
  chips: [
    'Call “Eighty knots”',
    '<b>Set</b> take-off & go-around thrust with the levers, and keep a hand behind them until V1',
    'Start the timer',
    'Release the brakes',
    'Check *both* engines stabilised',
    'Autothrust on',
    'Ease the stick to neutral between eighty and one hundred knots',
    'Call “V1”',
    'Rotate',
    'Call “Positive climb”',
    'Gear up',
    'Donaudampfschifffahrtselektrizitätenhauptbetriebswerk ringing',
  ].map((text, i) => ({ id: `s${i}`, text })),
};

/** A row for each of seven steps, among as many seats as a demonstration deck has. */
const crowd: CrewShown = {
  form: 'crew',
  title: 'A part of seven rows',
  scene: ['Cleared for take-off, runway 27', 'Engine **TK-11**'],
  drawn: {},
  before: ['Landing lights on', 'Transponder to TA/RA'],
  rows: longest.chips.slice(2, 9),
  seats: ['PF', 'PM', 'Both', 'Cabin crew', 'Captain'].map((text, i) => ({ id: `seat${i}`, text })),
};

/** The right seat of each row, and the same with some of them given to the next seat. */
const dealtOf = (one: Put, ...wrong: number[]): CrewGiven => {
  const { detail } = mark(one.resolved, one.offer, one.shown, null);
  if (!('seats' in one.shown) || (detail.form !== 'crew' && detail.form !== 'difference')) throw new Error('not dealt');
  const { seats } = one.shown;
  const seatOf = (label: string, by: number): string =>
    seats[(seats.findIndex(({ text }) => text === label) + by) % seats.length]?.id ?? '';
  return {
    deal: Object.fromEntries(detail.rows.map(({ id, right }, i) => [id, seatOf(right, wrong.includes(i) ? 1 : 0)])),
  };
};

const question = (shown: Shown, draft: Draft = {}): Exhibit => ({ part: 'question', shown, draft });
/** As of a kind of number that may be negative. */
const withSign = (shown: Shown): Shown =>
  shown.form === 'limit' ? { ...shown, fields: shown.fields.map((one) => ({ ...one, signed: true })) } : shown;
const verdict = (one: Put, given: Given | null): Exhibit => ({
  part: 'verdict',
  shown: one.shown,
  told: toldOf(one, given),
});

const hung = (): Readonly<Record<string, Exhibit>> => {
  const run = put('merrow-takeoff', { thing: 'set-thrust' });
  const { right, strangers } = stepsOf(run);
  // The first two exchanged, the third left out, one that does not belong at the end.
  const muddled = [right[1], right[0], ...right.slice(3), strangers[0]].filter((id) => id !== undefined);
  const next = put('merrow-takeoff', { form: 'next', part: ['rt-gear-call'] });
  const nextRight = next.offer.about.part?.[0] ?? '';
  const nextWrong = (is: (id: string) => boolean) => {
    const found = next.shown.form === 'next' ? next.shown.choices.find(({ id }) => id !== nextRight && is(id)) : null;
    if (!found) throw new Error('not among the choices');
    return { choice: found.id };
  };
  const height = put('merrow-takeoff', { thing: 'autopilot-height' });
  const band = put('merrow-takeoff', { thing: 'climb-speed' });
  const pitch = put('merrow-takeoff', { thing: 'tail-pitch' });
  const cross = put('wind-altimetry', { thing: 'crosswind-component' });
  const stick = put('merrow-takeoff', { thing: 'stick-input', case: 'stick' });
  const choices = stick.shown.form === 'scenario' ? stick.shown.choices : [];
  const some = ['s3', 's2', 's1'];
  const crew = put('merrow-takeoff', { form: 'crew', thing: 'clean-up' });
  const two = put('merrow-takeoff', { form: 'difference', thing: 'autopilot-height' }, EVERY);
  const hand = put('merrow-takeoff', { form: 'difference', thing: 'lever-hand' }, EVERY);
  return {
    'run-empty': question(run.shown),
    'run-numbered': question(run.shown, { order: muddled.slice(0, 4) }),
    'run-longest': question(longest, { order: longest.chips.map(({ id }) => id) }),
    'run-disabled': { part: 'question', shown: longest, draft: { order: some }, disabled: true },
    'run-unsure': { part: 'unsure', shown: run.shown, draft: { order: muddled } },
    'run-verdict-wrong': verdict(run, { order: muddled }),
    'run-verdict-right': verdict(run, { order: right }),
    'run-verdict-told': verdict(run, null),
    'next-empty': question(next.shown),
    'next-chosen': question(next.shown, { choice: nextRight }),
    'next-verdict-wrong': verdict(
      next,
      nextWrong((id) => !id.startsWith('stranger-')),
    ),
    'next-verdict-stranger': verdict(
      next,
      nextWrong((id) => id.startsWith('stranger-')),
    ),
    'next-verdict-right': verdict(next, { choice: nextRight }),
    'next-verdict-told': verdict(next, null),
    'limit-empty': question(withSign(height.shown)),
    'limit-typed': question(height.shown, { typed: ['1.500'] }),
    'limit-unreadable': question(height.shown, { typed: ['1.5.00,0'] }),
    'limit-band': question(band.shown, { typed: ['9', ''] }),
    'limit-verdict-wrong': verdict(height, typed(height, '100')),
    'limit-verdict-right': verdict(height, typed(height, '550')),
    'limit-verdict-told': verdict(band, null),
    'pitch-question': question(pitch.shown),
    'pitch-verdict': verdict(pitch, typed(pitch, '12')),
    'scenario-number': question(cross.shown, { typed: ['-12'] }),
    'scenario-choice': question(stick.shown),
    'scenario-verdict': verdict(cross, typed(cross, '40')),
    'scenario-verdict-choice': verdict(stick, { choice: choices[0]?.id ?? '' }),
    'crew-longest': question(crowd),
    'crew-few-seats': question({ ...crowd, seats: crowd.seats.slice(0, 2) }),
    'crew-dealt': question(crew.shown, dealtOf(crew)),
    'crew-disabled': { part: 'question', shown: crew.shown, draft: dealtOf(crew), disabled: true },
    'crew-unsure': { part: 'unsure', shown: crew.shown, draft: dealtOf(crew) },
    'crew-verdict-wrong': verdict(crew, dealtOf(crew, 1, 3)),
    'crew-verdict-right': verdict(crew, dealtOf(crew)),
    'crew-verdict-told': verdict(crew, null),
    'difference-numbers': question(two.shown, { typed: ['550', ''] }),
    'difference-verdict-exchanged': verdict(two, typed(two, '850', '550')),
    'difference-verdict-wrong': verdict(two, typed(two, '550', '500')),
    'difference-verdict-right': verdict(two, typed(two, '550', '850')),
    'difference-rows': question(hand.shown),
    'difference-rows-verdict': verdict(hand, dealtOf(hand, 0)),
    ...words(),
    ...winds(cross.shown),
    ...slips(),
    ...ofEachForm(),
  };
};

/** Words typed with a slip, those of another callout from the wrong seat, and a response chosen. */
const words = (): Record<string, Exhibit> => {
  const call = put('merrow-takeoff', { form: 'callout', part: ['cu-one'], way: 'typed' });
  const gear = put('merrow-takeoff', { form: 'callout', part: ['rt-climb'], way: 'typed' });
  const answered = put('merrow-takeoff', { form: 'list', part: ['al-flaps'], way: 'response-picked' });
  const wrong = answered.shown.form === 'list' ? answered.shown.choices.find(({ id }) => id !== 'al-flaps') : undefined;
  return {
    'words-typed': question(call.shown, { said: 'flaps', by: 'PF' }),
    'words-verdict-other': verdict(call, { said: 'flaps zero', by: 'PM' }),
    'words-verdict-missing': verdict(gear, { said: 'positive', by: 'PM' }),
    'words-verdict-misspelt': verdict(gear, { said: 'posative climb', by: 'PM' }),
    'words-verdict-chosen': verdict(answered, { choice: wrong?.id ?? '', by: 'PM' }),
  };
};

const DECKS = ['merrow-takeoff', 'merrow-abnormal', 'public-rules', 'wind-altimetry'];

/** Answered in the course of a flight, and never put as a question. */
const NEVER_PUT: readonly string[] = ['paced'];

/**
 * Of every way to ask, and every way within it (typed, picked …), the question that exercises most, and its verdict:
 * also of those that came after this was written.
 * @throws where no demonstration deck is asked in a form
 */
const ofEachForm = (): Record<string, Exhibit> => {
  const found = mostOfEach(DECKS.map((name) => deckNamed(name)));
  const asked = new Set([...found.values()].map(({ offer }) => offer.form));
  const every = DECKS.map((name) => deckNamed(name, EVERY));
  for (const [name, one] of mostOfEach(every, ({ form }) => !asked.has(form))) found.set(name, one);
  const missing = FORM_IDS.filter(
    (form) => !NEVER_PUT.includes(form) && ![...found.values()].some(({ offer }) => offer.form === form),
  );
  if (missing.length > 0) throw new Error(`no demonstration deck is asked by ${missing.join(', ')}`);
  return hungAs('each', found);
};

/** Of every way to ask the question that exercises most, as one seed draws it. */
const mostOfEach = (decks: readonly Resolved[], isTaken: (offer: Offer) => boolean = () => true): Map<string, Put> => {
  const found = new Map<string, Put>();
  const take = (resolved: Resolved, isTaken: (offer: Offer) => boolean): void => {
    for (const offer of offers(resolved, null, 1).filter(isTaken)) {
      const shown = draw(resolved, offer, 7);
      if (shown === null) continue;
      const name = [offer.form, wayOf(offer, shown)].filter((part) => part !== undefined).join('-');
      if ((found.get(name)?.offer.proves.length ?? 0) < offer.proves.length)
        found.set(name, { resolved, offer, shown });
    }
  };
  for (const resolved of decks) take(resolved, isTaken);
  return found;
};

/** Each with its verdict: that of who does not know. */
const hungAs = (how: string, found: ReadonlyMap<string, Put>): Record<string, Exhibit> =>
  Object.fromEntries(
    [...found].flatMap(([name, one]) => [
      [`${how}-${name}`, question(one.shown)],
      [`${how}-${name}-told`, verdict(one, null)],
    ]),
  );

/** Every way to ask, about a deck as somebody might write it who thinks of no phone. */
export const odd = (how: 'forty' | 'right-to-left'): Readonly<Record<string, Exhibit>> => {
  const { deck } = deckNamed('merrow-takeoff', EVERY);
  const other = how === 'forty' ? inFortyWords(deck) : fromRightToLeft(deck);
  return hungAs(how, mostOfEach([resolve(other, 'b'.repeat(64), EVERY)]));
};

/** Two slips: named, found, overlooked, and where nothing is wrong. */
const slips = (): Record<string, Exhibit> => {
  const one = put('merrow-takeoff', { form: 'slip', thing: 'line-up' });
  if (one.shown.form !== 'slip') throw new Error('no slip');
  const { faults, lines } = one.shown;
  const wrong = faults.flatMap((fault) => fault.lines);
  const right = lines.map(({ id }) => id).filter((id) => !wrong.includes(id));
  const some = [faults[0]?.lines[0] ?? '', right[0] ?? ''];
  return {
    'slip-empty': question(one.shown),
    'slip-named': question(one.shown, { lines: some }),
    'slip-verdict-some': verdict(one, { lines: some }),
    'slip-verdict-all': verdict(one, { lines: lines.map(({ id }) => id) }),
    'slip-verdict-right': verdict(one, { lines: wrong }),
    'slip-verdict-told': verdict(one, null),
  };
};
/** Which two variants are told apart is no way of asking, but how they are answered is. */
const wayOf = ({ about }: Offer, shown: Shown): string | undefined =>
  // Of slips a way names the step that it is about.
  shown.form !== 'difference' ? about.way?.split(':')[0] : shown.fields.length > 0 ? 'numbers' : 'rows';

/** The picture where wind and runway come close to each other. */
const winds = (shown: Shown): Record<string, Exhibit> => {
  if (shown.form !== 'scenario') return {};
  const pictures = [
    { runway: 30, windDir: 40, windSpeed: 27 },
    { runway: 360, windDir: 360, windSpeed: 9 },
    { runway: 90, windDir: 275, windSpeed: 31 },
    { runway: 270, windDir: 180, windSpeed: 0 },
  ];
  return Object.fromEntries(pictures.map((picture, i) => [`wind-${i}`, question({ ...shown, picture })]));
};

/** Every question of a form about a demonstration deck, as one seed draws it. */
const drawnOf = (deck: string, form: Offer['form']): Shown[] => {
  const resolved = deckNamed(deck);
  return offers(resolved, null, 1)
    .filter((offer) => offer.form === form)
    .flatMap((offer) => draw(resolved, offer, 7) ?? []);
};
export const runsOf = (deck: string): RunShown[] => drawnOf(deck, 'run').filter((shown) => shown.form === 'run');
export const slipsOf = (deck: string): SlipShown[] => drawnOf(deck, 'slip').filter((shown) => shown.form === 'slip');

/** Every question who does what of a demonstration deck, to who flies all of its variants. */
export const crewsOf = (deck: string): CrewShown[] => {
  const resolved = deckNamed(deck, EVERY);
  return offers(resolved, null, 1)
    .map((offer) => (offer.form === 'crew' ? draw(resolved, offer, 7) : null))
    .filter((shown): shown is CrewShown => shown?.form === 'crew');
};

let made: Readonly<Record<string, Exhibit>> | undefined;
/** Every form in every state. */
export const everything = (): Readonly<Record<string, Exhibit>> => {
  made ??= hung();
  return made;
};
/** @throws where nothing hangs under that name */
export const named = (name: string): Exhibit => {
  const exhibit = everything()[name];
  if (exhibit === undefined) throw new Error(`no exhibit ${name}`);
  return exhibit;
};
