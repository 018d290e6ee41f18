import type { FormId, Given, Marked, Offer, Shown } from '../model/form.ts';
import type { ItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { beforeForm } from './before/form.ts';
import { calloutForm } from './callout/form.ts';
import type { Blame, Form, Question } from './contract.ts';
import { crewForm } from './crew/form.ts';
import { cueForm } from './cue/form.ts';
import { differenceForm } from './difference/form.ts';
import { limitForm } from './limit/form.ts';
import { listForm } from './list/form.ts';
import { nextForm } from './next/form.ts';
import { pacedForm } from './paced/form.ts';
import { ruleForm } from './rule/form.ts';
import { runForm } from './run/form.ts';
import { scenarioForm } from './scenario/form.ts';
import { slipForm } from './slip/form.ts';
import { valueForm } from './value/form.ts';

/** Goes into every answer; raised when the same answer would be marked otherwise. */
export const MARKER_VERSION = 1;

/** Exhaustive: a new form id without a line here does not compile. */
const FORMS: Readonly<Record<FormId, Form<never, never>>> = {
  run: runForm as unknown as Form<never, never>,
  next: nextForm as unknown as Form<never, never>,
  limit: limitForm as unknown as Form<never, never>,
  scenario: scenarioForm as unknown as Form<never, never>,
  before: beforeForm as unknown as Form<never, never>,
  cue: cueForm as unknown as Form<never, never>,
  slip: slipForm as unknown as Form<never, never>,
  callout: calloutForm as unknown as Form<never, never>,
  list: listForm as unknown as Form<never, never>,
  crew: crewForm as unknown as Form<never, never>,
  value: valueForm as unknown as Form<never, never>,
  rule: ruleForm as unknown as Form<never, never>,
  difference: differenceForm as unknown as Form<never, never>,
  paced: pacedForm as unknown as Form<never, never>,
};

const formOf = (id: FormId): Form<Shown, Given> => FORMS[id] as unknown as Form<Shown, Given>;

/** Every question that could be put, over all forms, one at a time; null: none here, go on. */
export function* eachOffer(
  resolved: Resolved,
  wanted: ReadonlySet<ItemKey> | null,
  seed: number,
): Generator<Offer | null, void> {
  for (const id of Object.keys(FORMS) as FormId[]) yield* formOf(id).offers(resolved, wanted, seed);
}

/** All of them at once. */
export const offers = (resolved: Resolved, wanted: ReadonlySet<ItemKey> | null, seed: number): Offer[] =>
  [...eachOffer(resolved, wanted, seed)].filter((offer) => offer !== null);

/** null where no question can be drawn. */
export const draw = (resolved: Resolved, offer: Offer, seed: number): Shown | null =>
  formOf(offer.form).draw(resolved, offer, seed);

/** @throws TypeError where what was shown belongs to another form than the question: a log entry mixed up */
export function mark(resolved: Resolved, question: Question, shown: Shown, given: Given | null, blame?: Blame): Marked {
  if (shown.form !== question.form) throw new TypeError(`shown ${shown.form}, asked ${question.form}`);
  return formOf(question.form).mark(resolved, question, shown, given, blame);
}
