import * as v from 'valibot';
import { PACED_MOMENTS } from '../../model/deck.ts';
import { Id, maybe, Name, object, RuleRef, Size, SourceRef, Words } from '../shape.ts';

const PacedMassAt = object({ speed: Name, value: Size });

const PacedAeroplane = object({
  mass: Size,
  massAt: maybe(PacedMassAt),
  thrust: Size,
  thrustFall: Size,
  engines: Size,
  spoolUp: Size,
  wingArea: Size,
  dragRolling: Size,
  liftRolling: Size,
  friction: Size,
  dragClimbing: Size,
  rotationRate: Size,
  pitchLiftOff: Size,
  pitchClimb: Size,
});

const PacedCue = object({
  step: Id,
  speed: maybe(Size),
  height: maybe(Size),
  after: maybe(Id),
  seconds: maybe(Size),
  moment: maybe(v.picklist(PACED_MOMENTS)),
});

const PacedTolerance = object({ early: Size, late: Size });
const PacedStepTolerance = object({ step: Id, early: Size, late: Size });

const PacedFailure = object({ condition: Name, speed: Name, share: Size, from: v.number(), to: v.number() });

export const PacedShape = object({
  id: Id,
  title: Words,
  procedures: v.pipe(v.array(Id), v.minLength(1)),
  aeroplane: PacedAeroplane,
  cues: maybe(v.array(PacedCue)),
  tolerance: PacedTolerance,
  tolerances: maybe(v.array(PacedStepTolerance)),
  sets: maybe(Id),
  rotates: maybe(Id),
  wind: maybe(RuleRef),
  without: maybe(v.array(Id)),
  failure: maybe(PacedFailure),
  starts: maybe(Words),
  source: maybe(SourceRef),
  edition: maybe(Words),
});

export const PACED_DEFINITIONS = {
  Paced: PacedShape,
  PacedAeroplane,
  PacedMassAt,
  PacedCue,
  PacedTolerance,
  PacedFailure,
};
