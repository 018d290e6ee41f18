import * as v from 'valibot';
import { BASES, type Condition, type Deck, MOST_SIGNATURES, NATURES } from '../model/deck.ts';
import { LIMIT_DEFINITIONS, LimitShape } from '../subjects/limit/shape.ts';
import { PACED_DEFINITIONS, PacedShape } from '../subjects/paced/shape.ts';
import { PROCEDURE_DEFINITIONS, ProcedureShape } from '../subjects/procedure/shape.ts';
import { SCENARIO_DEFINITIONS, ScenarioShape } from '../subjects/scenario/shape.ts';
import {
  COMMON_DEFINITIONS,
  DateText,
  DeckId,
  Formula,
  has,
  Id,
  Language,
  maybe,
  Name,
  type OneOf,
  object,
  oneOf,
  record,
  ShowName,
  SignatureText,
  Size,
  UnitName,
  Url,
  Version,
  Word,
  Words,
} from '../subjects/shape.ts';

const SourceShape = object({
  id: Id,
  title: Words,
  edition: maybe(Words),
  issued: maybe(DateText),
  basis: v.picklist(BASES),
  url: maybe(Url),
});

const VariantAxisShape = object({ id: Id, label: Words, options: record(Id, Words) });
const CrewShape = object({ id: Name, label: Words });

const AreaShape = object({ label: Words, x: Size, y: Size, width: Size, height: Size });

const DayShape = object({
  id: Name,
  label: Words,
  unit: UnitName,
  from: v.number(),
  to: v.number(),
  step: maybe(v.number()),
  show: maybe(ShowName),
  require: maybe(v.array(Formula)),
});

const YesNo = object({ id: Name, label: Words, yes: Words, no: Words });
const Choice = object({ id: Name, label: Words, options: record(Word, Words) });
const NumberRange = object({
  id: Name,
  label: Words,
  unit: UnitName,
  from: v.number(),
  to: v.number(),
  step: maybe(v.number()),
});
const ConditionShape: OneOf<Condition> = oneOf<Condition>([YesNo, Choice, NumberRange], (x) =>
  has(x, 'options') ? Choice : has(x, 'unit') || has(x, 'from') || has(x, 'to') ? NumberRange : YesNo,
);

/** The authored file, format 1, as published in shared/deck.schema.json. */
export const DeckShape = object({
  format: v.literal(1),
  id: DeckId,
  version: Version,
  title: Words,
  language: Language,
  nature: v.picklist(NATURES),
  about: maybe(Words),
  madeBy: maybe(Words),
  checkedBy: maybe(Words),
  effective: maybe(DateText),
  until: maybe(DateText),
  amendment: maybe(Words),
  reviewBy: maybe(DateText),
  sources: v.array(SourceShape),
  variants: maybe(v.array(VariantAxisShape)),
  crew: maybe(v.array(CrewShape)),
  day: maybe(v.array(DayShape)),
  conditions: maybe(v.array(ConditionShape)),
  procedures: maybe(v.array(ProcedureShape)),
  limits: maybe(v.array(LimitShape)),
  scenarios: maybe(v.array(ScenarioShape)),
  paced: maybe(v.array(PacedShape)),
  areas: maybe(v.array(AreaShape)),
  signatures: maybe(v.pipe(v.array(SignatureText), v.maxLength(MOST_SIGNATURES))),
});

/** The same as a schema of the type that everything else works with: the compiler holds the two together. */
export const DeckSchema: v.GenericSchema<unknown, Deck> = DeckShape as never as v.GenericSchema<
  unknown,
  v.InferOutput<typeof DeckShape>
>;

/** Parts with a name of their own in the JSON Schema. */
export const DEFINITIONS = {
  ...COMMON_DEFINITIONS,
  Source: SourceShape,
  VariantAxis: VariantAxisShape,
  CrewMember: CrewShape,
  DayValue: DayShape,
  Condition: ConditionShape,
  YesNoCondition: YesNo,
  ChoiceCondition: Choice,
  NumberCondition: NumberRange,
  ...PROCEDURE_DEFINITIONS,
  ...LIMIT_DEFINITIONS,
  ...SCENARIO_DEFINITIONS,
  ...PACED_DEFINITIONS,
  Area: AreaShape,
};
