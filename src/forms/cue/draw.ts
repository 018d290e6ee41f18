import { seeded, shuffled } from '../../lib/random.ts';
import type { CueShown, Offer } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { askedIn } from '../run/draw.ts';
import { setScene } from '../run/scene.ts';
import { type Cued, calloutNamed, cuesOf, cueWords, otherCues, otherSteps, tellsCallout } from './cues.ts';
import { OTHERS } from './offers.ts';

/** Of others so many, the nearest, are drawn from; of other procedures only where the same one has too few. */
const NEAR = 8;

/** Texts that name all values of the day of a cue, so that they are drawn. */
const textsOf = ({ step: { step, text } }: Cued): string[] => [
  text,
  step.cue?.text ?? '',
  step.cue?.day === undefined ? '' : `{${step.cue.day}}`,
];

export function drawCue(resolved: Resolved, offer: Offer, seed: number): CueShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  const k = asked?.part[0];
  if (!asked || k === undefined || asked.part.length !== 1) return null;
  const { p, situation, view } = asked;
  const all = cuesOf(resolved, view);
  const id = situation.steps[k]?.step.id;
  const one = all.find((cued) => cued.p === p && cued.step.step.id === id);
  if (one === undefined) return null;
  const isTrigger = offer.about.way !== 'calls';
  const random = seeded(seed);
  const list = (isTrigger ? otherCues : otherSteps)(all, one);
  const others = [true, false]
    .flatMap((isOwn) => shuffled(random, list.filter((cued) => (cued.p === p) === isOwn).slice(0, NEAR)))
    .slice(0, OTHERS);
  const set = setScene(resolved, asked, [one, ...others].flatMap(textsOf), offer.proves, seed);
  if (!set) return null;
  const { drawn, scene, fill } = set;
  const cue = (cued: Cued): string => cueWords(resolved, view, cued, drawn);
  const step = ({ step: { text } }: Cued): string => fill(text);
  const shown = [one, ...others];
  const signs = shown.map((cued) => cueWords(resolved, view, signOf(cued), drawn));
  const cues = new Set(signs).size < signs.length ? shown.map(cue) : signs;
  const choices = shown.map((cued, i) => ({ id: cued.step.step.id, text: isTrigger ? (cues[i] ?? '') : step(cued) }));
  const told = tellsCallout(one, one.cue) || tellsCallout(one, cue(one));
  if (told && !isTrigger) return null;
  // In this draw two cues may have come to read alike: a value of the day, a number of a limit.
  if (new Set(choices.map(({ text }) => text)).size < choices.length) return null;
  return {
    form: 'cue',
    way: isTrigger ? 'trigger' : 'calls',
    title: p.procedure.title,
    scene,
    drawn,
    ask: isTrigger ? 'What does it wait for?' : 'What does this call for?',
    about: isTrigger ? fill((told ? calloutNamed(situation, k) : null) ?? one.step.text) : cue(one),
    choices: shuffled(random, choices),
  };
}

/** Of a cue with words and a limit the words alone: the limit's number is asked elsewhere. */
const signOf = ({ p, step }: Cued): Pick<Cued, 'p' | 'step'> => {
  const { cue } = step.step;
  return cue?.text === undefined || cue.limit === undefined
    ? { p, step }
    : { p, step: { ...step, step: { ...step.step, cue: { text: cue.text } } } };
};
