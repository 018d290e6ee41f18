/** What comes when in a paced run: every step of it, with its cue and who does it. */
import type { Amount, Id, Limit, Paced, PacedCue, PacedMoment, Step } from '../model/deck.ts';
import { isFact, isNumberLimit } from '../model/deck.ts';
import type { Drawn } from '../model/form.ts';
import type { PacedFigure, PacedShown } from '../model/form-paced.ts';
import { dayWords, fillWith } from '../subjects/fill.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../subjects/resolved.ts';
import { numberIn } from './number-in.ts';

/** s after what must be done before it, for a step without a cue of its own. */
const PACE = 2;
/** s after what it answers, when an answer is due. */
const ANSWER = 0;

export type Trigger =
  /** kt, reached from below */
  | { readonly at: 'speed'; readonly knots: number }
  /** ft above the runway */
  | { readonly at: 'height'; readonly feet: number }
  | { readonly at: 'moment'; readonly moment: PacedMoment }
  /** s after all of these; after the start where there are none */
  | { readonly at: 'after'; readonly steps: readonly Id[]; readonly seconds: number };

/**
 * By what the learner knows that it is time. figures: speed and height. clock: so many s after a step. told: the program
 * says what is seen. heard: another step was done. order: nothing but what goes before.
 */
export type Sign = 'figures' | 'clock' | 'told' | 'heard' | 'order';

export interface Timed {
  readonly id: Id;
  readonly procedure: Id;
  readonly run: RunStep;
  /** Values of the day filled in. */
  readonly text: string;
  /** What is said; null where nothing is. */
  readonly said: string | null;
  readonly who: 'own' | 'other' | 'either';
  readonly trigger: Trigger;
  readonly sign: Sign;
  /** The speed or height that is its cue, as the procedure says it; null: it has none. */
  readonly figure: PacedFigure | null;
  /** What the program tells of the cue. */
  readonly cue: string | null;
  /** s */
  readonly early: number;
  readonly late: number;
  /** Steps that must be done before it. */
  readonly before: readonly Id[];
  /** whole: only while no engine has failed. failed: only after that. */
  readonly holds: 'always' | 'whole' | 'failed';
  /** Its amount is the answer to the question of the wind. */
  readonly byWind: boolean;
}

/** Nobody's seat: done by each pilot, or by whoever has a hand free. */
const BOTH = 'both';
const EITHER = 'either';

const whoDoes = (by: string | undefined, seat: Id): Timed['who'] =>
  by === undefined || seat === '' || by === seat || by === BOTH ? 'own' : by === EITHER ? 'either' : 'other';

/**
 * The steps of a run in authored order, each once. Pure: of one `shown` always the same.
 * @returns null where the deck no longer holds one of the procedures in that situation
 */
export function timelineOf(
  { deck }: Pick<Resolved, 'deck'>,
  view: View,
  paced: Paced,
  { runs, seat, drawn }: Pick<PacedShown, 'runs' | 'seat' | 'drawn'>,
): readonly Timed[] | null {
  const out: Timed[] = [];
  const fill = (text: string): string => fillWith(text, dayWords(deck, drawn));
  /** Of the procedure before: what the first steps of the next one follow. */
  let last: Id | null = null;
  for (const { procedure, situation, failed } of runs) {
    const p = view.procedures.find((one) => one.procedure.id === procedure);
    const whole = p?.situations.find((one) => one.id === situation);
    const after = failed === undefined ? whole : p?.situations.find((one) => one.id === failed);
    if (p === undefined || whole === undefined || after === undefined) return null;
    const ids = (of: Situation): ReadonlySet<Id> => new Set(of.steps.map(({ step }) => step.id));
    const [inWhole, inFailed] = [ids(whole), ids(after)];
    for (const { run, order, i } of together(whole, after)) {
      const { step } = run;
      if (out.some(({ id }) => id === step.id)) continue;
      const before = order.steps.filter((_, a) => order.order.before[a]?.[i]).map((one) => one.step.id);
      const direct = order.order.covers.flatMap(([a, b]) => (b === i ? (order.steps[a]?.step.id ?? []) : []));
      const own = paced.cues?.find((one) => one.step === step.id);
      const known = (id: Id): boolean => inWhole.has(id) || inFailed.has(id) || out.some((one) => one.id === id);
      const follows = direct.length > 0 ? direct : last === null ? [] : [last];
      const found =
        (own && ownTrigger(own, known)) ?? (own ? null : stepTrigger(view, deck.day, paced, step, drawn, known));
      const trigger = found ?? { at: 'after' as const, steps: follows, seconds: PACE };
      const cue = step.cue?.text === undefined ? null : fill(step.cue.text);
      const tolerance = paced.tolerances?.find((one) => one.step === step.id) ?? paced.tolerance;
      out.push({
        id: step.id,
        procedure,
        run,
        text: fill(run.text),
        said: step.say === undefined ? null : fill(step.say),
        who: whoDoes(step.by, seat),
        trigger,
        figure: figureOf(view, deck.day, step, drawn, trigger),
        sign: signOf(step, own, found, cue, (id) => sayOf(p, id)),
        cue,
        early: tolerance.early,
        late: tolerance.late,
        before,
        holds: inWhole.has(step.id) ? (inFailed.has(step.id) ? 'always' : 'whole') : 'failed',
        byWind: paced.wind !== undefined && step.rule === paced.wind,
      });
    }
    last = out.at(-1)?.id ?? null;
  }
  return out;
}

/** Steps of both situations, those of the second alone behind the step that they stand behind there. */
function together(whole: Situation, after: Situation) {
  const at = (order: Situation, i: number) => ({ run: order.steps[i] as RunStep, order, i });
  const out = whole.steps.map((_, i) => at(whole, i));
  if (after === whole) return out;
  after.steps.forEach(({ step }, i) => {
    if (out.some(({ run }) => run.step.id === step.id)) return;
    const behind = after.steps[i - 1]?.step.id;
    out.splice(out.findIndex(({ run }) => run.step.id === behind) + 1, 0, at(after, i));
  });
  return out;
}

const sayOf = (p: ResolvedProcedure, id: Id): boolean =>
  p.situations.some(({ steps }) => steps.some(({ step }) => step.id === id && step.say !== undefined));

/** As the author of the run says it; null where it hangs on a step that is not in this one. */
function ownTrigger({ speed, height, moment, after, seconds }: PacedCue, known: (id: Id) => boolean): Trigger | null {
  if (speed !== undefined) return { at: 'speed', knots: speed };
  if (height !== undefined) return { at: 'height', feet: height };
  if (moment !== undefined) return { at: 'moment', moment };
  return after !== undefined && known(after) ? { at: 'after', steps: [after], seconds: seconds ?? 0 } : null;
}

/** From the step itself: what it answers, the wait before it, a value of the day or a limit in kt or ft, the failure. */
function stepTrigger(
  view: View,
  day: Resolved['deck']['day'],
  paced: Paced,
  step: Step,
  drawn: Drawn,
  known: (id: Id) => boolean,
): Trigger | null {
  const { cue, answers, after } = step;
  if (answers !== undefined && known(answers)) return { at: 'after', steps: [answers], seconds: ANSWER };
  if (after !== undefined && known(after.step))
    return { at: 'after', steps: [after.step], seconds: secondsOf(view, after.atLeast ?? after.atMost, drawn) };
  if (cue?.event !== undefined && cue.event === paced.failure?.condition) return { at: 'moment', moment: 'failure' };
  const figure = boundOf(view, day, step, drawn);
  if (figure === null) return null;
  return figure.unit === 'kt' ? { at: 'speed', knots: figure.value } : { at: 'height', feet: figure.value };
}

/** The first number in kt or ft that a step's cue, or what it is done from, stands on. */
function boundOf(view: View, day: Resolved['deck']['day'], { cue, from }: Step, drawn: Drawn): PacedFigure | null {
  for (const bound of [cue, from]) {
    const named = day?.find(({ id }) => id === bound?.day);
    const value = named && drawn[named.id];
    if (named && typeof value === 'number' && (named.unit === 'kt' || named.unit === 'ft'))
      return { value, unit: named.unit, sense: 'at' };
    const limit = view.limits.find((one) => one.limit.id === bound?.limit);
    const number = limit === undefined ? null : numberIn(limit, drawn);
    if (limit === undefined || number === null || isFact(limit.limit)) continue;
    const { unit } = limit.limit;
    if (unit === 'kt' || unit === 'ft') return { value: number, unit, sense: senseOf(limit.limit) };
  }
  return null;
}

const senseOf = (limit: Limit): PacedFigure['sense'] => {
  if (!isNumberLimit(limit)) return 'at';
  return limit.sense === 'at most' ? 'by' : limit.sense === 'exactly' ? 'at' : 'from';
};

/** Asked is what the procedure says: for "by 55 kt" the author of the run lets the cue come sooner. */
function figureOf(
  view: View,
  day: Resolved['deck']['day'],
  step: Step,
  drawn: Drawn,
  trigger: Trigger,
): PacedFigure | null {
  if (trigger.at !== 'speed' && trigger.at !== 'height') return null;
  const unit = trigger.at === 'speed' ? 'kt' : 'ft';
  const value = trigger.at === 'speed' ? trigger.knots : trigger.feet;
  const bound = boundOf(view, day, step, drawn);
  return bound?.unit === unit && bound.sense !== 'at' ? bound : { value, unit, sense: 'at' };
}

function secondsOf(view: View, amount: Amount | undefined, drawn: Drawn): number {
  const limit = view.limits.find((one) => one.limit.id === amount?.limit);
  const [value, unit] =
    limit !== undefined && !isFact(limit.limit)
      ? [numberIn(limit, drawn) ?? 0, limit.limit.unit]
      : [amount?.value ?? 0, amount?.unit];
  return unit === 'min' ? value * 60 : unit === 'h' ? value * 3600 : value;
}

function signOf(
  step: Step,
  own: PacedCue | undefined,
  trigger: Trigger | null,
  cue: string | null,
  isSaid: (id: Id) => boolean,
): Sign {
  if (trigger === null) return 'order';
  if (trigger.at === 'speed' || trigger.at === 'height') return 'figures';
  if (trigger.at === 'moment') return 'told';
  const [base] = trigger.steps;
  if (step.answers !== undefined && step.answers === base) return 'heard';
  if (own === undefined) return 'clock';
  if (cue !== null) return 'told';
  return base !== undefined && isSaid(base) ? 'heard' : 'order';
}
