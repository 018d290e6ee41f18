import { effect, type ReadonlySignal } from '@preact/signals';
import type { Session } from '../../drill/types.ts';
import { FIT_FROM, fitIsDue } from '../../memory/fit/due.ts';
import { DEFAULT_MODEL } from '../../memory/fsrs.ts';
import { type OwnWeights, ownModel, sameWeights, wantsOwn } from '../../memory/own-weights.ts';
import type { Fitted } from '../../memory/told.ts';
import type { Store } from '../../model/ports.ts';
import { dayWords, plural } from '../words.ts';
import type { Learner } from './learner.ts';

/** The last fit; null where there was none, or what is kept is of no use. */
export const lastFit = async (store: Store): Promise<OwnWeights | null> => {
  const kept = (await store.device.get('weights').catch(() => undefined)) as OwnWeights | undefined;
  return typeof kept?.fit?.answers === 'number' ? kept : null;
};

/** The learner's own weights, where they are in use; null: the usual ones are. */
export const fittedInUse = async ({ store, memory }: Learner): Promise<Fitted | null> => {
  const last = await lastFit(store);
  if (last === null || !last.fit.accepted || !sameWeights(last.fit.weights, memory.peek().model.weights)) return null;
  return { weights: last.fit.weights, upTo: last.upTo };
};

/** Learners whose fit is under way. */
const running = new WeakSet<Learner>();

/**
 * After a drill: where it is due, the learner's own weights are worked out, kept, and memory is folded with them. A
 * drill that begins meanwhile stops it; the end of that drill tries again. Whatever fails, memory stays as it is.
 * @param session the drill that has ended, and the ones after it
 */
export const fitWhenDue = async (learner: Learner, session: ReadonlySignal<Session | null>): Promise<void> => {
  const { store, device } = learner;
  const memory = learner.memory.peek();
  if (running.has(learner) || !learner.writing.peek() || !wantsOwn(memory.settings)) return;
  running.add(learner);
  const stop = new AbortController();
  const unwatch = effect(() => {
    const now = session.value?.now;
    if ((now !== undefined && now.kind !== 'done') || !learner.writing.value) stop.abort();
  });
  try {
    let kept = await lastFit(store);
    if (fitIsDue(memory.predicted, kept?.fit.answers ?? null)) {
      const fit = await device.fit(store, learner.facts(), stop.signal);
      if (fit.why === 'few' || fit.why === 'stopped') return;
      kept = { fit, at: device.now(), upTo: memory.upTo?.[0] ?? 0 };
      await store.device.put('weights', kept);
    }
    const { weights } = ownModel(kept) ?? DEFAULT_MODEL;
    const isInUse = sameWeights(weights, learner.memory.peek().model.weights);
    // A drill may have begun while they were stored: they wait for its end.
    if (!isInUse && !stop.signal.aborted) await learner.reload();
  } catch {
    // Given up, or it could not be done: nothing is lost, and the learner has nothing to do about it.
  } finally {
    unwatch();
    running.delete(learner);
  }
};

/**
 * Which weights are in use, and why.
 * @param last the last fit
 * @param predicted answers of which something was predicted, until now
 * @param wanted whether the learner wants their own
 * @param year this year
 * @param off minutes east of UTC when it was fitted
 */
export const ownMemoryWords = (
  last: OwnWeights | null,
  predicted: number,
  wanted: boolean,
  year: number,
  off: number,
): readonly string[] => {
  if (last === null) {
    const usual = !wanted
      ? 'The usual values, as you chose.'
      : predicted < FIT_FROM
        ? `The usual values: ${predicted} of ${FIT_FROM} answers so far.`
        : `The usual values: your own are worked out after the next drill, from ${plural(predicted, 'answer')}.`;
    return [usual, COUNTED];
  }
  const { fit, at } = last;
  const on = dayWords(new Date(at + off * 60_000).toISOString().slice(0, 10), year);
  const fitted = `${plural(fit.answers, 'answer')} on ${on}`;
  if (!fit.accepted)
    return [
      wanted
        ? `The usual values. Your own were tried with ${fitted} and predicted later answers no better, so the usual ones stay.`
        : 'The usual values, as you chose.',
      COUNTED,
    ];
  const { logLoss } = fit;
  const better = `predicted later answers better${
    logLoss === null
      ? ''
      : ` (log loss ${logLoss.fitted.toFixed(2)} against ${logLoss.default.toFixed(2)}, less is better)`
  }`;
  return [
    wanted
      ? `Your own values, fitted to ${fitted}: they ${better}.`
      : `The usual values, as you chose. Your own, fitted to ${fitted}, ${better}.`,
    COUNTED,
  ];
};

const COUNTED = 'Counted are answers about what you had met on an earlier day.';
