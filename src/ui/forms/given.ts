import type { Draft } from '../../drill/types.ts';
import { readNumber } from '../../forms/limit/read-number.ts';
import type { Given, Shown } from '../../model/form.ts';

/**
 * What the learner gave, from what was tapped and typed.
 * @returns null while it is not complete: nothing numbered, a field empty or unreadable, nothing chosen
 */
export const givenOf = (shown: Shown, draft: Draft): Given | null => {
  if (shown.form === 'run') {
    const known = new Set(shown.chips.map(({ id }) => id));
    const order = (draft.order ?? []).filter((id) => known.has(id));
    return order.length === 0 ? null : { order };
  }
  if (shown.choices.length > 0) {
    const { choice } = draft;
    return choice !== undefined && shown.choices.some(({ id }) => id === choice) ? { choice } : null;
  }
  if (shown.form === 'next') return null;
  const typed = shown.fields.map((_, i) => draft.typed?.[i] ?? '');
  const value: number[] = [];
  for (const [i, field] of shown.fields.entries()) {
    const read = readNumber(typed[i] ?? '', field.unit, field.show);
    if (!read.ok) return null;
    value.push(read.value);
  }
  return value.length === 0 ? null : { typed, value };
};
