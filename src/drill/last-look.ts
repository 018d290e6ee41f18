import { TARGET, targetOf } from '../memory/day-order.ts';
import { recallChance } from '../memory/fsrs.ts';
import type { Memory } from '../memory/types.ts';
import { type Item, type ItemKey, parseItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { circumstances, type Walk, type WalkLine, walkOf } from './walk.ts';

/** Why it is read: sure and wrong on something critical and not yet put right; critical and weak; the weakest of its part. */
export type WhyRead = 'alert' | 'critical' | 'weakest';

export interface LastThing {
  readonly item: Item;
  readonly why: WhyRead;
  /** Recall chance on the day that counts, 0..1; null where it was never met. */
  readonly chance: number | null;
}

/** More is not a last look. */
const MOST = 12;
/** Of them so many places are kept for what is not critical. */
const OTHERS = 4;

/**
 * What is worth reading once more: everything sure and wrong that is not yet put right; then what is critical and below
 * its target on the day of the check, the weakest first and what was never met last; then of each part the weakest that
 * is below its target. At most twelve things, each once, in that order.
 * @param items of the decks of one course
 * @param day study day
 * @param checkDay study day of the check; without one, and after it, today counts
 */
export const lastLook = (
  items: Iterable<Item>,
  memory: Pick<Memory, 'items' | 'model'>,
  day: number,
  checkDay: number | null,
): readonly LastThing[] => {
  const on = checkDay !== null && checkDay > day ? checkDay : day;
  const alerts: LastThing[] = [];
  const critical: LastThing[] = [];
  const weakest = new Map<string, LastThing>();
  for (const item of items) {
    const known = memory.items.get(item.key);
    const chance = known === undefined ? null : recallChance(known, on, memory.model);
    if (known !== undefined && known.alert !== null) alerts.push({ item, why: 'alert', chance });
    else if (item.critical && (chance ?? 0) < targetOf(item)) critical.push({ item, why: 'critical', chance });
    else if (!item.critical && chance !== null && chance < TARGET) {
      const group = `${item.deck}#${item.groupKind === 'procedure' ? item.group : item.groupKind}`;
      const before = weakest.get(group)?.chance ?? null;
      if (before === null || chance < before) weakest.set(group, { item, why: 'weakest', chance });
    }
  }
  const first = once([...alerts.sort(weakFirst), ...critical.sort(weakFirst)]);
  const others = [...weakest.values()].sort(weakFirst);
  const kept = Math.min(others.length, OTHERS);
  const pressing = first.slice(0, MOST - kept);
  return once([...pressing, ...others.slice(0, MOST - pressing.length)]);
};

/** What was never met comes last: it is not weak but new, and reading it once saves little. */
const weakFirst = (a: LastThing, b: LastThing): number =>
  (a.chance ?? 1) - (b.chance ?? 1) || a.item.deck.localeCompare(b.item.deck, 'en') || a.item.rank - b.item.rank;

/** Cases of one limit, rules of one decision, and a step in several variants are read together. */
const once = (list: readonly LastThing[]): LastThing[] => {
  const seen = new Set<string>();
  return list.filter(({ item }) => {
    const line = lineOf(item);
    return !seen.has(line) && seen.add(line);
  });
};

const lineOf = ({ deck, thing, key, groupKind }: Item): string =>
  `${deck}#${groupKind === 'scenario' ? `${thing}.${askOf(key)}` : thing}`;

const askOf = (key: ItemKey): string => parseItemKey(key)?.facet.split('.')[0] ?? '';

/**
 * One thing to read, with its answer, reason and source: a limit with all its cases, a decision with all its rules, a
 * step with those that it stands between.
 * @returns null where the deck no longer holds it
 */
export const lastWalk = (resolved: Resolved, item: Item): Walk | null =>
  item.groupKind === 'procedure' ? stepWalk(resolved, item) : thingWalk(resolved, item);

const thingWalk = (resolved: Resolved, { key, thing, group, groupKind, views }: Item): Walk | null => {
  const walk = walkOf(resolved, { variant: views[0] ?? '', group, groupKind, things: [thing] });
  if (walk === null || groupKind !== 'scenario') return walk;
  const named = `${thing}.${askOf(key)}`;
  const lines = walk.lines.filter(({ id }) => id === named || id.startsWith(`${named}@`));
  return lines.length === 0 ? null : { ...walk, lines };
};

const stepWalk = (resolved: Resolved, { thing, group, views }: Item): Walk | null => {
  for (const view of resolved.views) {
    if (!views.includes(view.id)) continue;
    // Of a shared block the first procedure that holds it names the item; another may fly it in this view.
    const holders = view.procedures.filter((p) =>
      p.situations.some(({ steps }) => steps.some(({ step }) => step.id === thing)),
    );
    const p = holders.find(({ procedure }) => procedure.id === group) ?? holders[0];
    const situation = p?.situations.find(({ steps }) => steps.some(({ step }) => step.id === thing));
    if (p === undefined || situation === undefined) continue;
    const wanted = {
      variant: view.id,
      group: p.procedure.id,
      groupKind: 'procedure',
      situation: situation.id,
    } as const;
    const whole = walkOf(resolved, wanted);
    const at = situation.steps.findIndex(({ step }) => step.id === thing);
    const line = whole?.lines[at];
    if (whole === null || line === undefined) continue;
    const near = (pairs: readonly number[]) =>
      pairs.flatMap((i) => whole.lines[i]?.text ?? []).map((text) => `“${text.replace(/[“”]/g, '')}”`);
    const after = near(situation.order.covers.filter(([, b]) => b === at).map(([a]) => a));
    const before = near(situation.order.covers.filter(([a]) => a === at).map(([, b]) => b));
    const { order } = situation;
    const others = [...situation.steps.keys()].filter((i) => i !== at);
    // What nothing stands before may still have its equals in another lane.
    const isFirst = others.every((i) => order.before[at]?.[i] === true);
    const isLast = others.every((i) => order.before[i]?.[at] === true);
    const place = [
      ...(isFirst ? ['first'] : after.length === 0 ? [] : [`after ${after.join(' and ')}`]),
      ...(isLast ? ['last'] : before.length === 0 ? [] : [`before ${before.join(' and ')}`]),
    ].join(', ');
    const said = place === '' ? 'In any order with the others' : `${place.slice(0, 1).toUpperCase()}${place.slice(1)}`;
    const when = circumstances(resolved, view, p, situation.id);
    const alone: WalkLine = { ...line, beside: false, together: false, by: line.by ?? String(at + 1) };
    return { title: whole.title, scene: [said, ...when], lines: [alone] };
  }
  return null;
};
