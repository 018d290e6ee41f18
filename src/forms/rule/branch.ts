import { foldText } from '../../lib/fold-text.ts';
import { seeded, shuffled } from '../../lib/random.ts';
import type { AnswerDetail, Choice, ChoiceGiven, Marked, Offer, RuleShown } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { compact, wants } from '../look-up.ts';
import { askedIn } from '../run/draw.ts';
import { extrasOf, fillerFor } from '../run/extras.ts';
import { setScene } from '../run/scene.ts';
import { fitting, isAuthored, type NumberedStranger, wordings } from '../run/strangers.ts';

/** What `about.way` says of such a question. */
export const BRANCH = 'branch';
/** s: to read the scene and the verdict, and per row to read. First estimates; pace is measured. */
const SECONDS = { scene: 8, row: 2 };
/** Choices beside the right one, at most and at least. */
const OTHERS = 4;
const LEAST_OTHERS = 2;

interface Others {
  /** Steps of the same procedure that are done in other circumstances, and not in these. */
  readonly steps: readonly RunStep[];
  /** The author's own: what another procedure does may well be done in the same flight. */
  readonly strangers: readonly NumberedStranger[];
  readonly count: number;
}

/** @returns null where no other circumstances do something else instead */
function othersOf(p: ResolvedProcedure, situation: Situation): Others | null {
  const taken = new Set(situation.steps.flatMap(wordings));
  const steps: RunStep[] = [];
  for (const step of p.situations.flatMap((one) => one.steps)) {
    const words = wordings(step);
    if (words.some((one) => taken.has(one))) continue;
    for (const one of words) taken.add(one);
    steps.push(step);
  }
  if (steps.length === 0) return null;
  const strangers = fitting(p, situation).filter((one) => isAuthored(p, one) && !taken.has(foldText(one.text)));
  const count = Math.min(OTHERS, steps.length + strangers.length);
  return count < LEAST_OTHERS ? null : { steps, strangers, count };
}

/** One question for each step that only some of the circumstances have, where others have a step instead. */
export function* branchOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<string>();
  for (const view of resolved.views) {
    for (const p of view.procedures) {
      if (p.conditions.length === 0 || !asksOrder(p.procedure)) continue;
      const thing = p.procedure.id;
      for (const situation of p.situations) {
        const others = othersOf(p, situation);
        for (const { step, place } of others === null ? [] : situation.steps) {
          if (place === null || seen.has(`${thing} ${place}`) || !wants(wanted, [place])) continue;
          if (p.situations.every(({ steps }) => steps.some((one) => one.step.id === step.id))) continue;
          seen.add(`${thing} ${place}`);
          const rows = 1 + (others as Others).count;
          yield {
            form: 'rule',
            about: { thing, situation: situation.id, part: [step.id], way: BRANCH },
            variant: view.id,
            proves: [place],
            g: 1 / rows,
            seconds: SECONDS.scene + SECONDS.row * rows,
            rows,
            ease: 0.4,
            confusable: [],
            needs: 'right-once',
          };
        }
        yield null;
      }
    }
  }
}

export function drawBranch(resolved: Resolved, offer: Offer, seed: number): RuleShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  const k = asked?.part[0];
  const step = k === undefined ? undefined : asked?.situation.steps[k];
  const others = asked && othersOf(asked.p, asked.situation);
  if (!asked || step === undefined || !others) return null;
  const random = seeded(seed);
  // What is done in other circumstances comes before what never is.
  const wrong = [...shuffled(random, others.steps), ...shuffled(random, others.strangers)].slice(0, others.count);
  const texts = [step, ...wrong].map(({ text }) => text);
  const set = setScene(resolved, asked, texts, offer.proves, seed);
  if (!set) return null;
  const { drawn, scene, fill } = set;
  const choices: Choice[] = [step, ...wrong].map((one) => ({
    id: 'id' in one ? one.id : one.step.id,
    text: fill(one.text),
  }));
  if (new Set(choices.map(({ text }) => foldText(text))).size < choices.length) return null;
  return {
    form: 'rule',
    seed,
    title: asked.p.procedure.title,
    situation: '',
    scene,
    drawn,
    before: [],
    step: '',
    ask: 'Which of these is a step of this procedure in these circumstances?',
    fields: [],
    choices: shuffled(random, choices),
    picture: null,
  };
}

const nothing: AnswerDetail = { form: 'rule', right: '', given: '', working: [] };

/** Right is a step that the circumstances shown have. @returns no marks where the deck no longer holds what was asked */
export function markBranch(
  resolved: Resolved,
  question: Question,
  shown: RuleShown,
  given: ChoiceGiven | null,
): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  const k = asked?.part[0];
  const step = k === undefined ? undefined : asked?.situation.steps[k];
  if (!asked || step === undefined || asked.part.length !== 1)
    return { marks: {}, g: 0, flawed: true, detail: nothing };
  const { view, p, situation } = asked;
  const isDone = (id: string): boolean => situation.steps.some((one) => one.step.id === id);
  const isRight = given !== null && isDone(given.choice);
  const fill = fillerFor(resolved, shown.drawn);
  const { why, slip, source } = extrasOf(resolved, view, p, step, shown.drawn);
  const isElsewhere =
    given !== null && !isRight && p.situations.some(({ steps }) => steps.some((one) => one.step.id === given.choice));
  const stranger = p.strangers[Number(/^stranger-(\d+)$/.exec(given?.choice ?? '')?.[1] ?? Number.NaN)];
  return {
    marks: step.place === null ? {} : { [step.place]: given === null ? 'told' : isRight ? 'right' : 'wrong' },
    g: 1 / Math.max(1, shown.choices.length),
    flawed: !isRight,
    detail: compact({
      form: 'rule' as const,
      right: fill(step.text),
      given: given === null ? '' : (shown.choices.find(({ id }) => id === given.choice)?.text ?? ''),
      slip: isElsewhere ? 'That is done in other circumstances.' : isRight ? undefined : stranger?.note,
      working: [],
      why,
      usualSlip: slip,
      source,
    }) as AnswerDetail,
  };
}
