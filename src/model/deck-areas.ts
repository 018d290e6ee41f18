/** A plan of the flight deck of the author's own: rectangles, of which a step's `where` names one. */

/** The plan is so wide; it is as high as its lowest area, at most twice that. */
export const PLAN_WIDTH = 100;
export const PLAN_HEIGHT = 200;

/** One area of the plan, in hundredths of the plan's width from its upper left corner. One may lie within another. */
export interface Area {
  /** What `where` of a step says, to the letter: "Overhead, lights". */
  readonly label: string;
  /** ≥ 0 */
  readonly x: number;
  readonly y: number;
  /** > 0 */
  readonly width: number;
  readonly height: number;
}
