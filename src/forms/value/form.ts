import type { LimitGiven, ValueShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { markLimit } from '../limit/mark.ts';
import { drawValue } from './draw.ts';
import { valueOffers } from './offers.ts';

/** Give the number of a step where it is done: the limit is known, and known to belong here. Proves the limit's value. */
export const valueForm: Form<ValueShown, LimitGiven> = {
  id: 'value',
  offers: (resolved, wanted) => valueOffers(resolved, wanted),
  draw: drawValue,
  mark: (resolved, question, shown, given) => {
    const marked = markLimit(resolved, question, { ...shown, form: 'limit' }, given);
    return { ...marked, detail: { ...marked.detail, form: 'value' } as typeof marked.detail };
  },
};
