import { answerEntry } from '../../drill/answer-entry.ts';
import type { PacedStart } from '../../drill/paced.ts';
import type { Told } from '../../drill/types.ts';
import { mark } from '../../forms/registry.ts';
import { recallChance } from '../../memory/fsrs.ts';
import type { Offer, PacedGiven } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Learner } from '../models/learner.ts';

/** What a run is told as, before it is stored. */
export const toldOfRun = (resolved: Resolved, { shown, variant, plan }: PacedStart, given: PacedGiven): Told => {
  const asked = { form: 'paced' as const, about: { thing: plan.paced.id }, variant, proves: [] };
  const marked = mark(resolved, asked, shown, given);
  const offer: Offer = {
    ...asked,
    proves: Object.keys(marked.marks),
    g: marked.g,
    seconds: 0,
    ease: 0,
    confusable: [],
    needs: 'read',
  };
  return {
    kind: 'verdict',
    deck: resolved.ref,
    offer,
    shown,
    given,
    sure: true,
    unsure: [],
    marked,
    verdicts: {},
    entry: null,
  };
};

/**
 * One entry for the whole run. Nothing is stored where none of the learner's steps came up.
 * @param ms visible time of the run
 * @throws StoreProblem: `learner.problem` says so, and it is written when it can be
 */
export const storeRun = async (learner: Learner, resolved: Resolved, told: Told, ms: number): Promise<Told> => {
  const { memory } = learner;
  const day = learner.today();
  const chance = (key: ItemKey): number => {
    const known = memory.value.items.get(key);
    return known === undefined ? 0 : recallChance(known, day, memory.value.model);
  };
  const { offer, shown, given, unsure } = told;
  const drill = `${learner.store.writer}-p${learner.device.now().toString(36)}`;
  const seat = shown.form === 'paced' && shown.seat !== '' ? { seat: shown.seat } : {};
  const made = answerEntry(resolved, { drill, offer, shown, given, sure: true, unsure, ms, ...seat }, chance);
  if (made === null) return told;
  const { entry, outcome } = await learner.append(made.entry);
  return { ...told, entry: entry.id, verdicts: outcome?.verdicts ?? {} };
};
