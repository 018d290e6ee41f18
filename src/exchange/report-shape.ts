import * as v from 'valibot';
import { LEAVABLE, REPORT_FORMAT } from '../model/report.ts';
import { DateText, DeckId, maybe, object, Words } from '../subjects/shape.ts';

/**
 * A progress report, formats 1 and 2, as published in shared/report.schema.json: its shape alone. These members and no others,
 * so that nothing leaves a device that its owner was not shown. What it means is held by report-check.ts.
 */
const Count = v.pipe(v.number(), v.integer(), v.minValue(0));
const FromOne = v.pipe(v.number(), v.integer(), v.minValue(1));
const Chance = v.nullable(v.pipe(v.number(), v.minValue(0), v.maxValue(1)));
const described = (words: string) => v.pipe(Chance, v.description(words));
const Key = v.pipe(v.string(), v.regex(/^[^#~]+#[^.#~]+\.[^#~]+~[0-9a-z]+$/));

const ItemShape = object({
  key: Key,
  now: described(
    'Recall chance on the day of the report, at least one day after the last answer: of what was answered on that day the chance of the next. null: never asked.',
  ),
  day: described(
    'Recall chance on its check date if nothing more is practised, at least one day after the last answer. null: never asked, no check date, or a past one.',
  ),
  check: maybe(DateText),
  verdicts: v.strictTuple([Count, Count, Count, Count]),
  sureWrong: maybe(Count),
  voids: Count,
  last: maybe(v.nullable(DateText)),
});

const QueryShape = object({ items: v.array(Key), on: DateText, note: v.string() });

const SlipShape = object({ key: Key, asked: v.string(), given: v.string(), times: FromOne });

const FormerShape = object({
  items: FromOne,
  verdicts: v.strictTuple([Count, Count, Count, Count]),
  sureWrong: maybe(Count),
});

const ReportDeckShape = object({
  id: DeckId,
  version: Words,
  title: Words,
  contentId: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
  variants: v.array(v.string()),
  items: v.array(ItemShape),
  notAsked: Count,
  queries: maybe(v.array(QueryShape)),
  slips: maybe(v.array(SlipShape)),
  slipsLeftOut: maybe(FromOne),
  former: maybe(FormerShape),
});

const PlanShape = object({
  minutes: Count,
  recall: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
  needed: v.nullable(Count),
});

export const ReportShape = object({
  recency: v.literal('report'),
  v: v.picklist([1, REPORT_FORMAT]),
  trainee: Words,
  n: FromOne,
  made: DateText,
  app: Words,
  checkDate: v.nullable(DateText),
  planned: Count,
  plan: maybe(PlanShape),
  assignment: maybe(object({ id: Words, n: FromOne })),
  decks: v.array(ReportDeckShape),
  days: maybe(v.array(DateText)),
  minutes: maybe(Count),
  answers: Count,
  leftOut: v.array(v.picklist(LEAVABLE)),
  selfRecorded: v.literal(true),
});

/** By their name in the JSON Schema. */
export const REPORT_DEFINITIONS = {
  Deck: ReportDeckShape,
  Item: ItemShape,
  Plan: PlanShape,
  Query: QueryShape,
  Slip: SlipShape,
  Former: FormerShape,
};
