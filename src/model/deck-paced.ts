/** A take-off that is played in time. Every number of it is the deck's own. */
import type { Cited, Id, Text } from './deck-basics.ts';

/** The aeroplane as a point mass. All values ≥ 0. */
export interface PacedAeroplane {
  /** kg */
  readonly mass: number;
  /** Mass and thrust are those of this value of a speed of the day: drawn otherwise, they go with the square of it. */
  readonly massAt?: PacedMassAt;
  /** N, of all engines together, standing still. */
  readonly thrust: number;
  /** N for each m/s of speed by which it falls. */
  readonly thrustFall: number;
  /** Number of engines. */
  readonly engines: number;
  /** s from the take-off setting until the thrust is there. */
  readonly spoolUp: number;
  /** m² */
  readonly wingArea: number;
  /** Drag and lift coefficients while it rolls. */
  readonly dragRolling: number;
  readonly liftRolling: number;
  /** Coefficient of rolling friction. */
  readonly friction: number;
  /** Drag coefficient after lift-off. */
  readonly dragClimbing: number;
  /** °/s */
  readonly rotationRate: number;
  /** °: at which it leaves the ground, and which is held then. */
  readonly pitchLiftOff: number;
  readonly pitchClimb: number;
}

export interface PacedMassAt {
  /** Value of the day in kt, such as V2. */
  readonly speed: string;
  /** kt, > 0 */
  readonly value: number;
}

export const PACED_MOMENTS = ['start', 'lift-off', 'climbing', 'failure'] as const;
export type PacedMoment = (typeof PACED_MOMENTS)[number];

/** When a step comes whose cue is neither a speed nor a height: one of `speed`, `height`, `after`, `moment`. */
export interface PacedCue {
  readonly step: Id;
  /** kt */
  readonly speed?: number;
  /** ft above the runway */
  readonly height?: number;
  /** So many `seconds` after that step was done. */
  readonly after?: Id;
  readonly seconds?: number;
  readonly moment?: PacedMoment;
}

export interface PacedTolerance {
  /** s before and after the cue within which a step is in time. */
  readonly early: number;
  readonly late: number;
}

/** An engine failure, drawn. */
export interface PacedFailure {
  /** Yes/no condition of the deck that is true then. */
  readonly condition: string;
  /** Value of the day that is V1, in kt. */
  readonly speed: string;
  /** Of the runs: 0..1. */
  readonly share: number;
  /** kt about V1 (negative: below) between which the engine fails. */
  readonly from: number;
  readonly to: number;
}

export interface Paced extends Cited {
  readonly id: Id;
  readonly title: string;
  /** Procedures played one after the other: from memory or flow. */
  readonly procedures: readonly Id[];
  readonly aeroplane: PacedAeroplane;
  readonly cues?: readonly PacedCue[];
  readonly tolerance: PacedTolerance;
  /** Of single steps. */
  readonly tolerances?: readonly (PacedTolerance & { readonly step: Id })[];
  /** Step with which take-off thrust is set; absent: it is set at the start. */
  readonly sets?: Id;
  /** Step with which the nose is raised; absent: it never leaves the ground. */
  readonly rotates?: Id;
  /** `scenario#ask`: its draw is the wind of the day, its rule what is done with the stick. */
  readonly wind?: string;
  /** Rules of that question whose wind is not drawn: nobody takes off in it. */
  readonly without?: readonly Id[];
  readonly failure?: PacedFailure;
  readonly starts?: Text;
}
