import type { CrewShown, Offer } from '../../model/form.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import { askedIn } from '../run/draw.ts';
import { setScene } from '../run/scene.ts';
import { dealable, isMixed } from './rows.ts';
import { seatsOf } from './seats.ts';

/** Steps given before the first row, so that it is clear where it begins. */
const CONTEXT = 2;

export function drawCrew(resolved: Resolved, offer: Offer, seed: number): CrewShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  if (!asked) return null;
  const { p, situation, part } = asked;
  const dealt = dealable(resolved, situation);
  if (!part.every((i) => dealt.has(i)) || !isMixed(part, dealt)) return null;
  const from = part[0] as number;
  const steps = part.map((i) => situation.steps[i] as RunStep);
  const before = situation.steps.slice(Math.max(0, from - CONTEXT), from);
  const set = setScene(
    resolved,
    asked,
    [...before, ...steps].map(({ text }) => text),
    offer.proves,
    seed,
  );
  if (!set) return null;
  const { drawn, scene, fill } = set;
  return {
    form: 'crew',
    title: p.procedure.title,
    scene,
    drawn,
    before: before.map(({ text }) => fill(text)),
    rows: steps.map(({ step, text }) => ({ id: step.id, text: fill(text) })),
    seats: seatsOf(resolved),
  };
}
