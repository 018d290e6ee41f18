import { below, seeded, shuffled } from '../../lib/random.ts';
import type { BeforeShown, Offer } from '../../model/form.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import { askedIn } from '../run/draw.ts';
import { setScene } from '../run/scene.ts';
import { pickStrangers } from '../run/strangers.ts';
import { othersOf } from './others.ts';

/** Of the steps that come after it so many, the nearest, are drawn from. */
const NEAR = 5;

export function drawBefore(resolved: Resolved, offer: Offer, seed: number): BeforeShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  const k = asked?.part[0];
  if (!asked || k === undefined || asked.part.length !== 1) return null;
  const { view, p, situation } = asked;
  const others = othersOf(view, p, situation, k);
  if (others === null) return null;
  const random = seeded(seed);
  const stepAt = (i: number): RunStep => situation.steps[i] as RunStep;
  const kept = new Set(others.strangers.map(({ id }) => id));
  const count = Math.min(others.strangers.length, Math.max(1, others.count - others.steps.length));
  const strangers = pickStrangers(p, situation, Number.POSITIVE_INFINITY, random)
    .filter(({ id }) => kept.has(id))
    .slice(0, count);
  const after = shuffled(random, others.steps.slice(0, NEAR)).slice(0, others.count - strangers.length);
  const right = stepAt(others.right[below(random, others.right.length)] as number);
  const shown = [right, ...after.map(stepAt), ...strangers];
  const step = stepAt(k);
  const set = setScene(
    resolved,
    asked,
    [step, ...shown].map(({ text }) => text),
    offer.proves,
    seed,
  );
  if (!set) return null;
  const { drawn, scene, fill } = set;
  return {
    form: 'before',
    title: p.procedure.title,
    scene,
    drawn,
    step: fill(step.text),
    ask: 'Which step of this procedure must be done before it?',
    choices: shuffled(
      random,
      shown.map((one) => ({ id: 'id' in one ? one.id : one.step.id, text: fill(one.text) })),
    ),
  };
}
