import { type Debrief, type DebriefItem, debrief } from '../../drill/debrief.ts';
import { type ProcedureLine, procedureLines } from '../../drill/procedure-lines.ts';
import type { Session } from '../../drill/types.ts';
import { horizonOf } from '../../memory/day-order.ts';
import { forecast } from '../../memory/forecast.ts';
import type { Item, ItemKey } from '../../model/item.ts';
import { toldLabel } from '../../subjects/told-label.ts';
import { type Course, courseOf } from '../words.ts';
import type { Learner } from './learner.ts';
import { groupTitle } from './titles.ts';

export interface Weak {
  readonly key: ItemKey;
  readonly label: string;
  readonly critical: boolean;
  readonly group: string;
  /** Predicted recall on the day that counts, 0..1; null before a forecast is possible. */
  readonly chance: number | null;
}

/** What is drawn along a procedure's line is not listed as missed or unsure again. */
export interface DebriefOf extends Debrief {
  /** Of each procedure that was asked its weakest steps, along its own line. */
  readonly lines: readonly ProcedureLine[];
  /** Everything was right, and sure. */
  readonly isFlawless: boolean;
  /**
   * Of all that is not drawn: least likely to be there on the day that counts, the least first; of each group one, once
   * there is a forecast.
   */
  readonly weak: readonly Weak[];
  /** Study day that counts: the check, or 30 days on. */
  readonly on: number;
}

/** Groups named; more would be a list of everything. */
const MOST_WEAK = 6;

export const debriefOf = (learner: Learner, session: Session): DebriefOf => {
  const decks = learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === session.course);
  const items = new Map<ItemKey, Item>(decks.flatMap(({ resolved }) => [...resolved.items]));
  const resolvedOf = new Map(decks.map(({ resolved }) => [resolved.deck.id, resolved]));
  const labelOf = (key: ItemKey, label: string): string => {
    const item = items.get(key);
    const resolved = item && resolvedOf.get(item.deck);
    return resolved === undefined ? label : toldLabel(resolved, item as Item);
  };
  const memory = learner.memory.value;
  const today = learner.today();
  const checkDay = learner.checkDay(session.course as Course);
  const on = horizonOf(today, checkDay);
  const all = debrief(session.answered, items, memory, today, checkDay);
  // All of it had its verdict in this drill: a callout is called by its own words.
  const named = <T extends DebriefItem>(list: readonly T[]): T[] =>
    list.map((one) => ({ ...one, label: labelOf(one.key, one.label) }));
  const told = {
    ...all,
    sureButWrong: named(all.sureButWrong),
    missed: named(all.missed),
    unsure: named(all.unsure),
  };
  const predicted = forecast(items.values(), memory, on, today);
  const lines = procedureLines(
    session.answered,
    decks.map(({ resolved }) => resolved),
    memory,
    predicted === null ? null : on,
  );
  const shown = new Set(lines.flatMap(({ steps }) => steps.flatMap(({ place, weak }) => (weak ? (place ?? []) : []))));
  const isElsewhere = ({ key }: { readonly key: ItemKey }) => !shown.has(key);
  const lists = {
    isFlawless: told.sureButWrong.length + told.missed.length + told.unsure.length === 0,
    missed: told.missed.filter(isElsewhere),
    unsure: told.unsure.filter(isElsewhere),
  };
  const drawn = new Set(lines.map(({ deck, procedure }) => `${deck}#${procedure}`));
  const weak = (key: ItemKey, chance: number | null): Weak[] => {
    const item = items.get(key);
    if (item === undefined) return [];
    return [{ key, label: item.label, critical: item.critical, group: groupTitle(decks, item), chance }];
  };
  if (predicted !== null) {
    const ofGroups = predicted.groups.flatMap(({ weakest, deck, group }) =>
      weakest === null || drawn.has(`${deck}#${group}`) ? [] : weak(weakest.key, weakest.chance),
    );
    const sorted = ofGroups.sort((a, b) => (a.chance ?? 0) - (b.chance ?? 0));
    return { ...told, ...lists, on, lines, weak: sorted.slice(0, MOST_WEAK) };
  }
  const listed = new Set([...told.sureButWrong, ...told.missed, ...told.unsure].map(({ key }) => key));
  return {
    ...told,
    ...lists,
    on,
    lines,
    weak: told.weakest.flatMap(({ key }) => (listed.has(key) ? [] : weak(key, null))),
  };
};
