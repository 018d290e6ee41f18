import type { Draft } from '../../drill/types.ts';
import { readNumber } from '../../forms/limit/read-number.ts';
import type { Choice, ChoiceGiven, Given, NumberField, NumberGiven, Shown } from '../../model/form.ts';

/**
 * What the learner gave, from what was tapped and typed.
 * @returns null while it is not complete: nothing numbered, a field empty or unreadable, nothing chosen
 */
export const givenOf = (shown: Shown, draft: Draft): Given | null => {
  switch (shown.form) {
    case 'run': {
      const known = new Set(shown.chips.map(({ id }) => id));
      const order = (draft.order ?? []).filter((id) => known.has(id));
      return order.length === 0 ? null : { order };
    }
    case 'next':
    case 'before':
    case 'cue':
      return choiceOf(shown.choices, draft);
    case 'limit':
    case 'scenario':
      return shown.choices.length > 0 ? choiceOf(shown.choices, draft) : numbersOf(shown.fields, draft);
    // Marked when the run has ended, not said.
    case 'paced':
      return null;
  }
};

const choiceOf = (choices: readonly Choice[], { choice }: Draft): ChoiceGiven | null =>
  choice !== undefined && choices.some(({ id }) => id === choice) ? { choice } : null;

const numbersOf = (fields: readonly NumberField[], draft: Draft): NumberGiven | null => {
  const typed = fields.map((_, i) => draft.typed?.[i] ?? '');
  const value: number[] = [];
  for (const [i, field] of fields.entries()) {
    const read = readNumber(typed[i] ?? '', field.unit, field.show);
    if (!read.ok) return null;
    value.push(read.value);
  }
  return value.length === 0 ? null : { typed, value };
};
