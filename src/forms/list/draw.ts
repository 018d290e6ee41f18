import { seeded, shuffled } from '../../lib/random.ts';
import type { Choice, ListShown, Offer } from '../../model/form.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import { signTells, tellsWords } from '../callout/context.ts';
import { type Asked, askedIn } from '../run/draw.ts';
import { setScene } from '../run/scene.ts';
import { isSaidIn } from '../words/match.ts';
import { filledChoices, LEAST_MISSES, nearMisses } from '../words/near.ts';
import {
  callPool,
  callSeats,
  callSign,
  challengeOf,
  mostOthers,
  otherLists,
  responsePool,
  responseSeats,
} from './lists.ts';
import { taken } from './offers.ts';

/** Above a question that must not name the list. */
const UNNAMED = 'A list is called for';

export function drawList(resolved: Resolved, offer: Offer, seed: number): ListShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  if (!asked || asked.p.calls === null) return null;
  switch (offer.about.way) {
    case 'which':
      return drawWhich(resolved, asked, offer, seed);
    case 'caller':
      return drawCaller(resolved, asked, offer, seed);
    case 'call':
    case 'call-picked':
      return drawCall(resolved, asked, offer, seed);
    case 'response':
    case 'response-picked':
      return drawResponse(resolved, asked, offer, seed);
    default:
      return null;
  }
}

function drawWhich(resolved: Resolved, asked: Asked, offer: Offer, seed: number): ListShown | null {
  const { p, view } = asked;
  const others = otherLists(view, p);
  const set = others && setScene(resolved, asked, [], offer.proves, seed);
  if (!others || !set || set.scene.some((line) => isSaidIn(p.procedure.title, line))) return null;
  const random = seeded(seed);
  const lists = [p, ...shuffled(random, others).slice(0, mostOthers)];
  return {
    form: 'list',
    way: 'which',
    title: UNNAMED,
    scene: set.scene,
    drawn: set.drawn,
    ask: 'Which list is it?',
    challenge: '',
    choices: shuffled(
      random,
      lists.map(({ procedure: { id, title } }) => ({ id, text: title })),
    ),
    seats: [],
  };
}

function drawCaller(resolved: Resolved, asked: Asked, offer: Offer, seed: number): ListShown | null {
  const seats = callSeats(resolved, asked.p);
  const set = seats.length === 0 ? null : setScene(resolved, asked, [], offer.proves, seed);
  if (!set) return null;
  return {
    form: 'list',
    way: 'caller',
    title: asked.p.procedure.title,
    scene: set.scene,
    drawn: set.drawn,
    ask: 'Who calls for it?',
    challenge: '',
    choices: seats,
    seats: [],
  };
}

function drawCall(resolved: Resolved, asked: Asked, offer: Offer, seed: number): ListShown | null {
  const { p, view } = asked;
  const { id, called, title } = p.procedure;
  const sign = callSign(view, p);
  if (called === undefined || sign === null) return null;
  const isPicked = offer.about.way === 'call-picked';
  const found = wordsAsked(resolved, asked, offer, seed, {
    ...{ id, words: called, also: [], isPicked },
    pool: callPool(view, p),
    texts: [],
  });
  if (found === null) return null;
  const { words, scene, drawn, choices } = found;
  if (scene.some((line) => tellsWords(words, line))) return null;
  const seats = callSeats(resolved, p);
  return {
    form: 'list',
    way: 'call',
    title: sign === 'title' ? title : UNNAMED,
    scene,
    drawn,
    ask: `Which words call for it${seats.length > 0 ? ', and who says them' : ''}?`,
    challenge: '',
    choices,
    seats,
  };
}

function drawResponse(resolved: Resolved, asked: Asked, offer: Offer, seed: number): ListShown | null {
  const { p, situation, view, part } = asked;
  const [k] = part;
  if (k === undefined || part.length !== 1) return null;
  const step = situation.steps[k] as RunStep;
  const { say, alsoSay = [] } = step.step;
  const challenge = challengeOf(p, situation, k);
  if (say === undefined || challenge === null) return null;
  const found = wordsAsked(resolved, asked, offer, seed, {
    ...{ id: step.step.id, words: say, also: alsoSay, isPicked: offer.about.way === 'response-picked' },
    pool: responsePool(view, step),
    texts: [challenge],
  });
  if (found === null) return null;
  const { words, scene, drawn, choices, fill } = found;
  const shown = fill(challenge);
  if (signTells(words, shown) || [p.procedure.title, ...scene].some((line) => tellsWords(words, line))) return null;
  const seats = responseSeats(resolved, step);
  return {
    form: 'list',
    way: 'response',
    title: p.procedure.title,
    scene,
    drawn,
    ask: `What is answered${seats.length > 0 ? ', and by whom' : ''}?`,
    challenge: shown,
    choices,
    seats,
  };
}

interface WordsWanted {
  readonly id: string;
  readonly words: string;
  readonly also: readonly string[];
  readonly isPicked: boolean;
  readonly pool: readonly Choice[];
  /** What else is shown. */
  readonly texts: readonly string[];
}

/** The scene and the choices of a question for words; null where they cannot be drawn. */
function wordsAsked(resolved: Resolved, asked: Asked, offer: Offer, seed: number, wanted: WordsWanted) {
  const { id, words, also, isPicked, pool, texts } = wanted;
  const random = seeded(seed);
  const misses = isPicked ? nearMisses(random, words, also, pool, taken(resolved, asked.view)) : [];
  if (isPicked && misses.length < LEAST_MISSES) return null;
  const shown = [...texts, words, ...misses.map(({ text }) => text)];
  const set = setScene(resolved, asked, shown, offer.proves, seed);
  if (!set) return null;
  const choices = isPicked ? filledChoices([{ id, text: words }, ...misses], also, set.fill) : [];
  return choices === null ? null : { ...set, words: set.fill(words), choices: shuffled(random, choices) };
}
