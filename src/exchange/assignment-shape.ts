import * as v from 'valibot';
import { NATURES } from '../model/deck.ts';
import { DateText, DeckId, Id, maybe, object, record, Version } from '../subjects/shape.ts';

/** Format 1, as published in shared/assignment.schema.json. Shape alone; what it means `readAssignment` looks at. */
const form = (pattern: RegExp) => v.pipe(v.string(), v.regex(pattern));
const words = (most: number) => v.pipe(v.string(), v.minLength(1), v.maxLength(most));
const some = <const S extends v.GenericSchema>(item: S) => v.pipe(v.array(item), v.minLength(1), v.maxLength(500));
const whole = (least: number, most: number) => v.pipe(v.number(), v.integer(), v.minValue(least), v.maxValue(most));

const AssignedDeckShape = object({
  id: DeckId,
  contentId: form(/^[0-9a-f]{64}$/),
  title: words(300),
  version: Version,
  nature: v.picklist(NATURES),
  address: maybe(form(/^https:\/\/[^ ]+$/)),
  variants: maybe(record(Id, some(Id))),
});

const AssignedGroupShape = object({
  id: Id,
  name: words(120),
  things: some(form(/^[a-z0-9][a-z0-9-]*\/[a-z0-9][a-z0-9-]*#[a-z0-9][a-z0-9-]*$/)),
  checkDate: maybe(DateText),
  opens: maybe(DateText),
});

export const AssignmentShape = object({
  recency: v.literal('assignment'),
  v: v.literal(1),
  id: form(/^[A-Za-z0-9_-]{22}$/),
  n: whole(1, 1_000_000),
  title: words(300),
  made: DateText,
  decks: some(AssignedDeckShape),
  checkDate: maybe(DateText),
  groups: maybe(v.array(AssignedGroupShape)),
  minutes: maybe(whole(1, 120)),
  note: maybe(words(4000)),
});

export const ASSIGNMENT_DEFINITIONS = { AssignedDeck: AssignedDeckShape, AssignedGroup: AssignedGroupShape };
