/** Items of two decks, combination by combination: which answers stayed, changed, came and went. */
import type { VariantAxis } from '../../model/deck.ts';
import { parseItemKey } from '../../model/item.ts';
import type { View } from '../../subjects/resolved.ts';
import { axesThatMatter, optionWords } from '../../subjects/view-names.ts';
import { type Answer, type Answers, answersOf } from './answers.ts';
import type { Every } from './views.ts';

export interface ItemDifference {
  /** `thing.facet` */
  readonly name: string;
  readonly kind: 'answer' | 'same-answer' | 'added' | 'removed';
  readonly old: ReadonlyMap<string, Answer>;
  readonly now: ReadonlyMap<string, Answer>;
  readonly variants: string;
}

export interface ItemsCompared {
  readonly differences: readonly ItemDifference[];
  readonly same: number;
  /** Stamps of an item in all combinations of the deck compared to. */
  readonly today: ReadonlyMap<string, ReadonlySet<string>>;
}

/** A deck with the answers of all its combinations. */
export interface Side {
  readonly every: Every;
  readonly views: readonly { readonly view: View; readonly answers: Answers }[];
  readonly stamps: ReadonlyMap<string, ReadonlySet<string>>;
  /** `thing.facet~old stamp` → stamp of today. */
  readonly joined: ReadonlyMap<string, string>;
}

interface Found {
  readonly name: string;
  readonly kind: ItemDifference['kind'];
  readonly old: ReadonlyMap<string, Answer>;
  readonly now: ReadonlyMap<string, Answer>;
  readonly before: Set<string>;
  readonly after: Set<string>;
}

/** Combinations that agree in all that both decks know are held against each other; one without a partner came or went. */
export function compareItems(old: Side, now: Side): ItemsCompared {
  const [before, after] = [old.every, now.every];
  const common = (after.deck.variants ?? [])
    .map((a) => a.id)
    .filter((id) => before.deck.variants?.some((b) => b.id === id));
  const place = ({ pick }: View): string => common.map((axis) => pick[axis] ?? '').join(',');
  const partners = new Map<string, Side['views'][number][]>();
  for (const b of old.views) partners.set(place(b.view), [...(partners.get(place(b.view)) ?? []), b]);
  const found = new Map<string, Found>();
  const same = new Set<string>();
  const note = (
    name: string,
    kind: Found['kind'],
    was: ReadonlyMap<string, Answer>,
    is: ReadonlyMap<string, Answer>,
    views: { readonly before?: string; readonly after?: string },
  ): void => {
    const id = [name, kind, ...[...was.keys()].sort(), '→', ...[...is.keys()].sort()].join(' ');
    const known = found.get(id) ?? { name, kind, old: was, now: is, before: new Set(), after: new Set() };
    found.set(id, known);
    if (views.before !== undefined) known.before.add(views.before);
    if (views.after !== undefined) known.after.add(views.after);
  };
  const paired = new Set<View>();
  for (const a of now.views)
    for (const b of partners.get(place(a.view)) ?? []) {
      paired.add(a.view).add(b.view);
      const views = { before: b.view.id, after: a.view.id };
      for (const name of new Set([...b.answers.keys(), ...a.answers.keys()])) {
        const pair = split(name, b.answers.get(name) ?? NONE, a.answers.get(name) ?? NONE, old, now);
        for (const stamp of pair.same) same.add(`${name}~${stamp}`);
        for (const [was, is] of pair.joined) note(name, 'same-answer', was, is, views);
        if (pair.old.size > 0 && pair.now.size > 0) note(name, 'answer', pair.old, pair.now, views);
        else if (pair.now.size > 0) note(name, 'added', NONE, pair.now, views);
        else if (pair.old.size > 0) note(name, 'removed', pair.old, NONE, views);
      }
    }
  lonely(old, now, paired, (name, answers, view) => {
    note(name, 'removed', answers, NONE, { before: view });
  });
  lonely(now, old, paired, (name, answers, view) => {
    note(name, 'added', NONE, answers, { after: view });
  });
  const differences = [...found.values()].map(({ before: was, after: is, ...one }): ItemDifference => {
    const gone = one.kind === 'removed';
    return { ...one, variants: gone ? named(before, was) : named(after, is) };
  });
  return { differences, same: same.size, today: now.stamps };
}

const NONE: ReadonlyMap<string, Answer> = new Map();

export function sideOf(every: Every): Side {
  const views = every.views.map((view) => ({ view, answers: answersOf(every.deck, view) }));
  const stamps = new Map<string, Set<string>>();
  for (const { answers } of views)
    for (const [name, found] of answers) {
      const all = stamps.get(name) ?? new Set();
      stamps.set(name, all);
      for (const stamp of found.keys()) all.add(stamp);
    }
  const joined = new Map<string, string>();
  for (const [key, today] of every.aliases) {
    const [was, is] = [parseItemKey(key), parseItemKey(today)];
    if (was && is) joined.set(`${was.thing}.${was.facet}~${was.stamp}`, is.stamp);
  }
  return { every, views, stamps, joined };
}

/** What of one item is the same, the same by the author's word (in either deck), and what is left on each side. */
function split(
  name: string,
  before: ReadonlyMap<string, Answer>,
  after: ReadonlyMap<string, Answer>,
  old: Side,
  now: Side,
) {
  const same = [...before.keys()].filter((stamp) => after.has(stamp));
  const left = new Map([...before].filter(([stamp]) => !after.has(stamp)));
  const come = new Map([...after].filter(([stamp]) => !before.has(stamp)));
  const joined: [ReadonlyMap<string, Answer>, ReadonlyMap<string, Answer>][] = [];
  for (const [stamp, answer] of [...left]) {
    const partner = [...after.keys()].find(
      (other) => now.joined.get(`${name}~${stamp}`) === other || old.joined.get(`${name}~${other}`) === stamp,
    );
    if (partner === undefined) continue;
    joined.push([new Map([[stamp, answer]]), new Map([[partner, after.get(partner) as Answer]])]);
    left.delete(stamp);
    come.delete(partner);
  }
  return { same, joined, old: left, now: come };
}

/** Items of combinations that the other deck has not, as far as the other deck has them nowhere. */
function lonely(
  side: Side,
  other: Side,
  paired: ReadonlySet<View>,
  note: (name: string, answers: ReadonlyMap<string, Answer>, view: string) => void,
): void {
  for (const { view, answers } of side.views) {
    if (paired.has(view)) continue;
    for (const [name, all] of answers) {
      const own = new Map([...all].filter(([stamp]) => !other.stamps.get(name)?.has(stamp)));
      if (own.size > 0) note(name, own, view.id);
    }
  }
}

/** The variants of some views in words; '' for all of them. */
function named({ deck, views }: Every, held: ReadonlySet<string>): string {
  if (held.size === views.length) return '';
  const axes: readonly VariantAxis[] = deck.variants ?? [];
  const only = axesThatMatter([...held], views, axes);
  const words = views.filter((v) => held.has(v.id)).map((v) => optionWords(v.pick, only, axes));
  return [...new Set(words)].join(' / ');
}
