import { seeded, shuffled } from '../../lib/random.ts';
import type { About, Offer, RunShown } from '../../model/form.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { procedureIn, viewOf } from '../look-up.ts';
import { strangerCount } from './offers.ts';
import { setScene } from './scene.ts';
import { fitting, pickStrangers } from './strangers.ts';

/** Steps given before a part, so that it is clear where it begins. */
const CONTEXT = 2;

export interface Asked {
  readonly view: View;
  readonly p: ResolvedProcedure;
  readonly situation: Situation;
  /** Indices of the steps asked, in authored order. */
  readonly part: readonly number[];
}

/** What a question is about; null where the deck does not hold it. */
export function askedIn(resolved: Resolved, variant: string, about: About): Asked | null {
  const view = viewOf(resolved, variant);
  const p = view && procedureIn(view, about.thing);
  const situation = p?.situations.find((s) => s.id === (about.situation ?? ''));
  if (!view || !p || !situation) return null;
  const all = [...situation.steps.keys()];
  const part = about.part ? all.filter((i) => about.part?.includes((situation.steps[i] as RunStep).step.id)) : all;
  if (part.length === 0 || (about.part && part.length !== about.part.length)) return null;
  return { view, p, situation, part };
}

export function drawRun(resolved: Resolved, offer: Offer, seed: number): RunShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  if (!asked) return null;
  const { p, situation, part } = asked;
  const random = seeded(seed);
  const steps = part.map((i) => situation.steps[i] as RunStep);
  const count = strangerCount(steps.length, fitting(p, situation).length, offer.needs);
  const strangers = pickStrangers(p, situation, count, random);
  const from = part[0] as number;
  const before = situation.steps.slice(Math.max(0, from - CONTEXT), from);

  const texts = [...steps, ...strangers, ...before].map((s) => s.text);
  const set = setScene(resolved, asked, texts, offer.proves, seed);
  if (!set) return null;
  const { fill, drawn, scene } = set;
  const chips = [
    ...steps.map((s) => ({ id: s.step.id, text: fill(s.text) })),
    ...strangers.map((s) => ({ id: s.id, text: fill(s.text) })),
  ];
  return {
    form: 'run',
    title: p.procedure.title,
    scene,
    drawn,
    chips: shuffled(random, chips),
    before: before.map((s) => fill(s.text)),
  };
}
