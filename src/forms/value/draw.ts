import type { Offer, ValueShown } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { contextOf, holderIn } from '../in-step/holder.ts';
import { answerable, askedLimit } from '../limit/draw.ts';
import { setScene } from '../run/scene.ts';
import { tells } from './offers.ts';

export function drawValue(resolved: Resolved, offer: Offer, seed: number): ValueShown | null {
  const asked = askedLimit(resolved, offer.variant, offer.about);
  const holder = holderIn(resolved, offer.variant, offer.about);
  if (!asked || !holder) return null;
  const { view, p, situation, k, step } = holder;
  // A step before it may name the number: it is left out.
  const before = contextOf(holder).filter(({ text }) => !tells(resolved.deck, text, asked.limit, asked.case));
  const { ask } = asked.limit.limit;
  const texts = [step.text, ask, ...before.map(({ text }) => text)];
  const set = setScene(resolved, { view, p, situation, part: [k] }, texts, offer.proves, seed);
  if (!set) return null;
  const { drawn, scene, fill } = set;
  return {
    form: 'value',
    title: p.procedure.title,
    scene,
    drawn,
    before: before.map(({ text }) => fill(text)),
    step: fill(step.text),
    ask: fill(ask),
    ...answerable(resolved, asked.limit, seed),
  };
}
