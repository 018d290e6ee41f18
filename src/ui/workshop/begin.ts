import type { Json } from '../../lib/canonical-json.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { Learner } from '../models/learner.ts';
import { type Asked, asked } from './asked.ts';
import { draftId } from './model/draft.ts';
import { openField } from './place.ts';

/** Turns of drawing that a page may take whose code and draft are still to be loaded. */
const FROM_AFAR = 900;

/** From outside the Workshop: opens a draft with the cursor at a place. @param place JSON Pointer. @param query shown there */
export const openPlace = (draft: string, place: string, query: Asked | null = null): void => {
  asked.value = query;
  openField(draft, place, FROM_AFAR);
};

/** @param base the revision it goes on from. @returns its id. @throws StoreProblem */
export const keepNewDraft = async (
  { store, device }: Pick<Learner, 'store' | 'device'>,
  value: Json,
  base: string | null,
): Promise<string> => {
  const now = device.now();
  const id = draftId(() => device.seed());
  await store.drafts.put({ id, seq: 1, made: now, changed: now, value, history: null, side: {}, base }, 0);
  return id;
};

/**
 * A new draft of a version that is here. Its note for the learner stays behind: it told of that version's changes, and
 * would tell them again as those of the next.
 * @returns its id. @throws StoreProblem
 */
export const beginDraft = (learner: Pick<Learner, 'store' | 'device'>, { ref, text }: StoredDeck): Promise<string> => {
  const { amendment: _, ...value } = JSON.parse(text) as Readonly<Record<string, Json>>;
  return keepNewDraft(learner, value, ref);
};
