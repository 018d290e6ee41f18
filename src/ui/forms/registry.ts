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
