import type { Draft } from '../../drill/types.ts';
import { readNumber } from '../../forms/limit/read-number.ts';
import type {
  Choice,
  ChoiceGiven,
  CrewGiven,
  Given,
  NumberField,
  NumberGiven,
  Shown,
  WordsGiven,
} from '../../model/form.ts';

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
    case 'callout':
    case 'list':
      return wordsOf(shown, draft);
    case 'crew':
      return dealOf(shown.rows, shown.seats, draft);
    case 'slip': {
      const known = new Set(shown.lines.map(({ id }) => id));
      const lines = (draft.lines ?? []).filter((id) => known.has(id));
      return lines.length === 0 ? null : { lines };
    }
    case 'difference':
      return shown.fields.length > 0 ? numbersOf(shown.fields, draft) : dealOf(shown.rows, shown.seats, draft);
    case 'limit':
    case 'scenario':
    case 'value':
    case 'rule':
      return shown.choices.length > 0 ? choiceOf(shown.choices, draft) : numbersOf(shown.fields, draft);
    // Marked when it has ended, not said.
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

const dealOf = (rows: readonly Choice[], seats: readonly Choice[], draft: Draft): CrewGiven | null => {
  const known = new Set(seats.map(({ id }) => id));
  const deal = Object.fromEntries(
    rows.flatMap(({ id }) => {
      const seat = draft.deal?.[id];
      return seat !== undefined && known.has(seat) ? [[id, seat]] : [];
    }),
  );
  return rows.length > 0 && Object.keys(deal).length === rows.length ? { deal } : null;
};

const wordsOf = (
  { choices, seats }: { readonly choices: readonly Choice[]; readonly seats: readonly Choice[] },
  draft: Draft,
): WordsGiven | null => {
  const by = seats.find(({ id }) => id === draft.by)?.id;
  if (seats.length > 0 && by === undefined) return null;
  const who = by === undefined ? {} : { by };
  if (choices.length > 0) {
    const chosen = choiceOf(choices, draft);
    return chosen === null ? null : { ...chosen, ...who };
  }
  const said = (draft.said ?? '').trim();
  return said === '' ? null : { said, ...who };
};
