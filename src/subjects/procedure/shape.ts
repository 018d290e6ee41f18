import * as v from 'valibot';
import { type Block, DONE, type Node } from '../../model/deck.ts';
import {
  Formula,
  has,
  Id,
  Kept,
  maybe,
  Name,
  type OneOf,
  object,
  oneOf,
  RuleRef,
  SourceRef,
  UnitName,
  WhenShape,
  Words,
} from '../shape.ts';

const Cue = object({ text: maybe(Words), limit: maybe(Id), day: maybe(Name), event: maybe(Name) });
const Bound = object({ text: maybe(Words), limit: maybe(Id), day: maybe(Name) });
const Amount = object({ limit: maybe(Id), value: maybe(v.number()), unit: maybe(UnitName) });

export const StepShape = object({
  id: Id,
  do: maybe(Words),
  say: maybe(Words),
  by: maybe(Name),
  cue: maybe(Cue),
  from: maybe(Bound),
  until: maybe(Bound),
  after: maybe(object({ step: Id, atLeast: maybe(Amount), atMost: maybe(Amount) })),
  limit: maybe(Id),
  rule: maybe(RuleRef),
  answers: maybe(Id),
  ifNoAnswer: maybe(Words),
  needs: maybe(v.array(Id)),
  why: maybe(Words),
  slip: maybe(Words),
  alsoSay: maybe(v.array(Words)),
  alsoDo: maybe(v.array(Words)),
  where: maybe(Words),
  when: maybe(WhenShape),
  if: maybe(Formula),
  critical: maybe(v.boolean()),
  source: maybe(SourceRef),
  edition: maybe(Words),
  keeps: maybe(v.array(Kept)),
});

const Nodes: v.GenericSchema<Node[]> = v.pipe(v.array(v.lazy((): v.GenericSchema<Node> => NodeShape)), v.minLength(1));

const Lanes = v.pipe(v.array(Nodes), v.minLength(1));
const block = { id: maybe(Id), if: maybe(Formula), when: maybe(WhenShape), together: maybe(v.boolean()) };
/** One of the two must be there, or an empty object would be a block; that both are not is for the checker to say. */
const StepsBlock: v.GenericSchema<Block> = object({ ...block, steps: Nodes, lanes: maybe(Lanes) });
const LanesBlock: v.GenericSchema<Block> = object({ ...block, lanes: Lanes, steps: maybe(Nodes) });

export const UseShape = object({ use: Id, if: maybe(Formula), when: maybe(WhenShape) });

const NodeShape: OneOf<Node> = oneOf<Node>([StepShape, StepsBlock, LanesBlock, UseShape], (x) =>
  has(x, 'use') ? UseShape : has(x, 'lanes') ? LanesBlock : has(x, 'steps') ? StepsBlock : StepShape,
);

const StrangerShape = object({ text: Words, note: maybe(Words) });
const AnyStranger = oneOf<string | v.InferOutput<typeof StrangerShape>>([Words, StrangerShape], (x) =>
  typeof x === 'object' ? StrangerShape : Words,
);

export const ProcedureShape = object({
  id: Id,
  title: Words,
  starts: maybe(Words),
  done: v.picklist(DONE),
  calledBy: maybe(Name),
  called: maybe(Words),
  steps: Nodes,
  strangers: maybe(v.array(AnyStranger)),
  why: maybe(Words),
  critical: maybe(v.boolean()),
  when: maybe(WhenShape),
  source: maybe(SourceRef),
  edition: maybe(Words),
});

export const PROCEDURE_DEFINITIONS = {
  Procedure: ProcedureShape,
  Node: NodeShape,
  Step: StepShape,
  StepsBlock,
  LanesBlock,
  Use: UseShape,
  Cue,
  Bound,
  Amount,
};
