import * as v from 'valibot';
import { LIMIT_PICTURES, type Limit, SENSES, TABLE_SENSES } from '../../model/deck.ts';
import {
  BandShape,
  GivenShape,
  has,
  Id,
  Kept,
  maybe,
  type OneOf,
  object,
  oneOf,
  record,
  ShowName,
  SourceRef,
  UnitName,
  WhenShape,
  Words,
} from '../shape.ts';

const base = {
  id: Id,
  ask: Words,
  why: maybe(Words),
  slip: maybe(Words),
  source: maybe(SourceRef),
  edition: maybe(Words),
  critical: maybe(v.boolean()),
  when: maybe(WhenShape),
  keeps: maybe(v.array(Kept)),
};

const caseBase = {
  id: Id,
  when: maybe(WhenShape),
  given: maybe(GivenShape),
  source: maybe(SourceRef),
  edition: maybe(Words),
  critical: maybe(v.boolean()),
  note: maybe(Words),
};

const numbers = { value: maybe(v.number()), from: maybe(v.number()), to: maybe(v.number()) };
const NumberCase = object({ ...caseBase, ...numbers });

export const NumberLimitShape = object({
  ...base,
  ...numbers,
  unit: UnitName,
  reference: maybe(Words),
  sense: v.picklist(SENSES),
  strict: maybe(v.boolean()),
  show: maybe(ShowName),
  picture: maybe(v.picklist(LIMIT_PICTURES)),
  accept: maybe(BandShape),
  cases: maybe(v.pipe(v.array(NumberCase), v.minLength(1))),
  slips: maybe(v.array(object({ value: v.number(), note: Words }))),
});

const FactCase = object({ ...caseBase, is: Id });

export const FactLimitShape = object({
  ...base,
  options: record(Id, Words),
  is: maybe(Id),
  cases: maybe(v.pipe(v.array(FactCase), v.minLength(1))),
  slips: maybe(v.array(object({ is: Id, note: Words }))),
});

export const TableLimitShape = object({
  ...base,
  unit: UnitName,
  reference: maybe(Words),
  accept: maybe(BandShape),
  table: object({
    input: object({ label: Words, unit: UnitName }),
    method: v.picklist(['step', 'linear']),
    rows: v.pipe(v.array(v.strictTuple([v.number(), v.number()])), v.minLength(2)),
  }),
  asked: maybe(v.boolean()),
  sense: maybe(v.picklist(TABLE_SENSES)),
});

export const LimitShape: OneOf<Limit> = oneOf<Limit>([NumberLimitShape, FactLimitShape, TableLimitShape], (x) =>
  has(x, 'options') ? FactLimitShape : has(x, 'table') ? TableLimitShape : NumberLimitShape,
);

export const LIMIT_DEFINITIONS = {
  Limit: LimitShape,
  NumberLimit: NumberLimitShape,
  FactLimit: FactLimitShape,
  TableLimit: TableLimitShape,
};
