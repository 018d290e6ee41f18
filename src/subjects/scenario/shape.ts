import * as v from 'valibot';
import type { Ask, Draw } from '../../model/deck.ts';
import {
  BandShape,
  Formula,
  has,
  Id,
  Kept,
  maybe,
  Name,
  type OneOf,
  object,
  oneOf,
  record,
  ShowName,
  SourceRef,
  UnitName,
  WhenShape,
  Word,
  Words,
} from '../shape.ts';

const drawn = { show: maybe(ShowName), label: maybe(Words), unit: maybe(UnitName) };
const RangeDraw = object({ from: v.number(), to: v.number(), step: maybe(v.number()), ...drawn });
const ListDraw = object({ oneOf: v.pipe(v.array(v.number()), v.minLength(1)), ...drawn });
/** An event may have nothing to show. */
const EventDraw = object({ oneOf: record(Word, v.string()), label: maybe(Words) });

const DrawShape: OneOf<Draw> = oneOf<Draw>([RangeDraw, ListDraw, EventDraw], (x) => {
  if (!has(x, 'oneOf')) return RangeDraw;
  return Array.isArray((x as { oneOf: unknown }).oneOf) ? ListDraw : EventDraw;
});

const base = {
  id: Id,
  ask: Words,
  if: maybe(Formula),
  why: maybe(Words),
  source: maybe(SourceRef),
  edition: maybe(Words),
  critical: maybe(v.boolean()),
  keeps: maybe(v.array(Kept)),
};

export const NumberAskShape = object({
  ...base,
  number: Formula,
  unit: UnitName,
  show: maybe(ShowName),
  accept: maybe(BandShape),
  slips: maybe(v.array(object({ number: Formula, note: Words }))),
});

const RuleShape = object({
  id: Id,
  if: maybe(Formula),
  // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"; nobody awaits a schema
  then: v.pipe(v.array(Id), v.minLength(1)),
  why: maybe(Words),
  slip: maybe(Words),
  source: maybe(SourceRef),
  edition: maybe(Words),
  critical: maybe(v.boolean()),
});

const ChooseAskShape = object({
  ...base,
  choose: object({ options: record(Id, Words), rules: v.pipe(v.array(RuleShape), v.minLength(1)) }),
});

const AskShape: OneOf<Ask> = oneOf<Ask>([NumberAskShape, ChooseAskShape], (x) =>
  has(x, 'choose') ? ChooseAskShape : NumberAskShape,
);

export const ScenarioShape = object({
  id: Id,
  title: maybe(Words),
  situation: Words,
  picture: maybe(v.picklist(['runway-wind'])),
  draw: record(Name, DrawShape),
  let: maybe(record(Name, Formula)),
  require: maybe(v.array(Formula)),
  asks: v.pipe(v.array(AskShape), v.minLength(1)),
  when: maybe(WhenShape),
  why: maybe(Words),
  source: maybe(SourceRef),
  edition: maybe(Words),
  critical: maybe(v.boolean()),
  nearV1: maybe(v.boolean()),
});

export const SCENARIO_DEFINITIONS = {
  Scenario: ScenarioShape,
  Draw: DrawShape,
  RangeDraw,
  ListDraw,
  EventDraw,
  Ask: AskShape,
  NumberAsk: NumberAskShape,
  ChooseAsk: ChooseAskShape,
  Rule: RuleShape,
};
