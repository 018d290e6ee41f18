import { seeded, shuffled } from '../../lib/random.ts';
import type { CalloutShown, Offer } from '../../model/form.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import { askedIn } from '../run/draw.ts';
import { extrasOf } from '../run/extras.ts';
import { setScene } from '../run/scene.ts';
import { filledChoices, LEAST_MISSES, nearMisses } from '../words/near.ts';
import { beforeOf, type Sign, signOf, signTells, tellsWords } from './context.ts';
import { askedSeats, pool, taken } from './offers.ts';

const ASKS: Readonly<Record<Sign['kind'], string>> = {
  answers: 'What is said in answer',
  cue: 'What is said at this cue',
  action: 'What is said with this',
  next: 'What is said next',
};

export function drawCallout(resolved: Resolved, offer: Offer, seed: number): CalloutShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  const k = asked?.part[0];
  if (!asked || k === undefined || asked.part.length !== 1) return null;
  const { p, situation, view } = asked;
  const step = situation.steps[k] as RunStep;
  const { say, alsoSay = [], cue } = step.step;
  const sign = say === undefined ? null : signOf(resolved, view, p, situation, k);
  if (say === undefined || sign === null) return null;
  const before = beforeOf(situation, k);
  const isPicked = offer.about.way === 'picked';
  const random = seeded(seed);
  const misses = isPicked ? nearMisses(random, say, alsoSay, pool(view, step), taken(resolved, view)) : [];
  if (isPicked && misses.length < LEAST_MISSES) return null;
  const texts = [
    ...before.map(({ text }) => text),
    ...(sign.kind === 'cue' ? [cue?.text ?? '', cue?.day === undefined ? '' : `{${cue.day}}`] : [sign.text]),
    ...[say, ...misses.map(({ text }) => text)],
  ];
  const set = setScene(resolved, asked, texts, offer.proves, seed);
  if (!set) return null;
  const { drawn, scene, fill } = set;
  const words = fill(say);
  const shownSign = sign.kind === 'cue' ? (extrasOf(resolved, view, p, step, drawn).cue ?? '') : fill(sign.text);
  // With the values of the day put in, something may say it after all.
  if (signTells(words, shownSign) || [p.procedure.title, ...scene].some((line) => tellsWords(words, line))) return null;
  const choices = isPicked ? filledChoices([{ id: step.step.id, text: say }, ...misses], alsoSay, fill) : [];
  if (choices === null) return null;
  const seats = askedSeats(resolved, step);
  return {
    form: 'callout',
    title: p.procedure.title,
    scene,
    drawn,
    ask: `${ASKS[sign.kind]}${seats.length > 0 ? ', and by whom' : ''}?`,
    before: before.map(({ text }) => fill(text)),
    cue: shownSign,
    choices: shuffled(random, choices),
    seats,
  };
}
