import type { Json } from '../../lib/canonical-json.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { Learner } from '../models/learner.ts';
import { draftId } from './model/draft.ts';
import { openField } from './place.ts';

/** Turns of drawing that a page may take whose code and draft are still to be loaded. */
const FROM_AFAR = 900;

/** From outside the Workshop: opens a draft with the cursor at a place. @param place JSON Pointer */
export const openPlace = (draft: string, place: string): void => openField(draft, place, FROM_AFAR);

/** A new draft of a version that is here. @returns its id. @throws StoreProblem */
export const beginDraft = async ({ store, device }: Learner, { ref, text }: StoredDeck): Promise<string> => {
  const now = device.now();
  const id = draftId(() => device.seed());
  const value = JSON.parse(text) as Json;
  await store.drafts.put({ id, seq: 1, made: now, changed: now, value, history: null, side: {}, base: ref }, 0);
  return id;
};
