import { seeded, shuffled } from '../../lib/random.ts';
import type { NextShown, Offer } from '../../model/form.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import { askedIn } from '../run/draw.ts';
import { setScene } from '../run/scene.ts';
import { pickStrangers } from '../run/strangers.ts';
import { othersOf } from './others.ts';

/** Of the steps so many, the nearest, are drawn from. */
const NEAR = 4;

export function drawNext(resolved: Resolved, offer: Offer, seed: number): NextShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  const k = asked?.part[0];
  if (!asked || k === undefined || asked.part.length !== 1) return null;
  const { p, situation } = asked;
  const others = othersOf(p, situation, k);
  if (!others) return null;
  const random = seeded(seed);
  const stepAt = (i: number): RunStep => situation.steps[i] as RunStep;
  // One stranger, where there is one; as many more as steps are wanting.
  const count = Math.min(others.strangers.length, Math.max(1, others.count - others.steps.length));
  const kept = new Set(others.strangers.map(({ id }) => id));
  const strangers = pickStrangers(p, situation, Number.POSITIVE_INFINITY, random)
    .filter(({ id }) => kept.has(id))
    .slice(0, count);
  const wrong = [
    ...shuffled(random, others.steps.slice(0, NEAR))
      .slice(0, others.count - strangers.length)
      .map(stepAt),
    ...strangers,
  ];
  const right = stepAt(k);
  const before = others.before.map(stepAt);
  const texts = [right, ...wrong, ...before].map(({ text }) => text);
  const set = setScene(resolved, asked, texts, offer.proves, seed);
  if (!set) return null;
  const { drawn, scene, fill } = set;
  const choices = [right, ...wrong].map((one) => ({ id: 'id' in one ? one.id : one.step.id, text: fill(one.text) }));
  return {
    form: 'next',
    title: p.procedure.title,
    scene,
    drawn,
    before: before.map(({ text }) => fill(text)),
    ask: before.length === 0 ? 'What comes first?' : 'What comes next?',
    choices: shuffled(random, choices),
  };
}
