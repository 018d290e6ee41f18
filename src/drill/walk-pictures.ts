import type { Area, Id } from '../model/deck.ts';
import { asksOrder } from '../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, Situation, View } from '../subjects/resolved.ts';
import type { Walk, WalkWanted } from './walk.ts';

/** What is read, and where it comes from: pictures are drawn from there when they are opened. */
export interface Reading {
  readonly walk: Walk;
  readonly resolved: Resolved;
  readonly wanted: WalkWanted;
  /** Ids of lines that were not read before, where others of them were. */
  readonly fresh?: ReadonlySet<string>;
}

/** A step that is done somewhere on the plan. */
export interface PanelStop {
  readonly id: Id;
  readonly text: string;
  readonly by?: string;
  /** Label of its area. */
  readonly where: string;
}

export interface PanelPlan {
  readonly areas: readonly Area[];
  /** In the order of the steps, at least one. */
  readonly stops: readonly PanelStop[];
}

/** @returns null where the deck has no plan, or nothing of what is read is done on it */
export const panelPlan = ({ walk, resolved }: Reading): PanelPlan | null => {
  const areas = resolved.deck.areas ?? [];
  const known = new Set(areas.map(({ label }) => label));
  const stops = walk.lines.flatMap(({ id, text, by, where }): PanelStop[] =>
    where === undefined || !known.has(where) ? [] : [{ id, text, ...(by !== undefined && { by }), where }],
  );
  return stops.length === 0 ? null : { areas, stops };
};

/** The procedure that is read, in the view and situation in which it is read; null where it is none. */
export const procedureRead = ({
  resolved,
  wanted,
}: Pick<Reading, 'resolved' | 'wanted'>): {
  readonly view: View;
  readonly found: ResolvedProcedure;
  readonly situation: Situation;
} | null => {
  if (wanted.groupKind !== 'procedure') return null;
  const view = resolved.views.find(({ id }) => id === wanted.variant) ?? resolved.views[0];
  const found = view?.procedures.find(({ procedure }) => procedure.id === wanted.group);
  const situation = found?.situations.find(({ id }) => id === wanted.situation) ?? found?.situations[0];
  return view === undefined || found === undefined || situation === undefined ? null : { view, found, situation };
};

/** Two steps are no map. A list that is read aloud is not learned by its line. */
const LEAST_MAPPED = 3;

/** Which pictures help with it. */
export const picturesOf = (reading: Reading): { readonly map: boolean; readonly panel: boolean } => {
  const read = procedureRead(reading);
  return {
    map: read !== null && asksOrder(read.found.procedure) && read.situation.steps.length >= LEAST_MAPPED,
    panel: panelPlan(reading) !== null,
  };
};
