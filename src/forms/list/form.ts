import type { ListShown, WordsGiven } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawList } from './draw.ts';
import { markList } from './mark.ts';
import { listOffers } from './offers.ts';

/** A list that is read: which one, who calls for it and how, and what is answered to a challenge. Its order is read. */
export const listForm: Form<ListShown, WordsGiven> = {
  id: 'list',
  offers: (resolved, wanted) => listOffers(resolved, wanted),
  draw: drawList,
  mark: markList,
};
