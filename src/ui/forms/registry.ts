import type { Draft } from '../../drill/types.ts';
import type { FormId, Shown } from '../../model/form.ts';
import type { FormUi } from './contract.ts';
import { givenOf } from './given.ts';

/** Exhaustive: a new form id without a line here does not compile. */
const FORMS: Readonly<Record<FormId, () => Promise<FormUi>>> = {
  run: () => import('./run/ui.ts').then(({ runUi }) => runUi),
  next: () => import('./next/ui.ts').then(({ nextUi }) => nextUi),
  limit: () => import('./limit/ui.ts').then(({ limitUi }) => limitUi),
  scenario: () => import('./scenario/ui.ts').then(({ scenarioUi }) => scenarioUi),
  before: () => import('./before/ui.ts').then(({ beforeUi }) => beforeUi),
  cue: () => import('./cue/ui.ts').then(({ cueUi }) => cueUi),
  slip: () => import('./slip/ui.ts').then(({ slipUi }) => slipUi),
  callout: () => import('./callout/ui.ts').then(({ calloutUi }) => calloutUi),
  list: () => import('./list/ui.ts').then(({ listUi }) => listUi),
  crew: () => import('./crew/ui.ts').then(({ crewUi }) => crewUi),
  value: () => import('./value/ui.ts').then(({ valueUi }) => valueUi),
  rule: () => import('./rule/ui.ts').then(({ ruleUi }) => ruleUi),
  difference: () => import('./difference/ui.ts').then(({ differenceUi }) => differenceUi),
  paced: () => import('./paced/ui.ts').then(({ pacedUi }) => pacedUi),
};

const loaded = new Map<FormId, FormUi>();

/** Of a form that was loaded before: its next question is drawn at once. */
export const formUiNow = (id: FormId): FormUi | null => loaded.get(id) ?? null;

export const formUi = async (id: FormId): Promise<FormUi> => {
  const ui = loaded.get(id) ?? (await FORMS[id]());
  loaded.set(id, ui);
  return ui;
};

/** May Sure and Not sure be said? */
export const draftComplete = (shown: Shown, draft: Draft): boolean => givenOf(shown, draft) !== null;
