/** Names of items that would read the same are told apart. */
import type { Facet, Item, ItemKey } from '../model/item.ts';
import { branchWords } from '../subjects/formula-words.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { toldLabel } from '../subjects/told-label.ts';

export interface Named {
  readonly key: ItemKey;
  readonly label: string;
  /** What may tell it from others of the same label, the plainest first; '' adds nothing. */
  readonly by: readonly (() => string)[];
}

/** Key → label, of which no two are the same. */
export const toldApart = (all: readonly Named[]): ReadonlyMap<ItemKey, string> => {
  const found = new Map<ItemKey, string>();
  const split = (group: readonly Named[], name: string, k: number): void => {
    const [first] = group;
    if (first === undefined) return;
    if (group.length === 1) return void found.set(first.key, name);
    if (k >= first.by.length) {
      for (const [i, { key }] of group.entries()) found.set(key, `${name} (${i + 1} of ${group.length})`);
      return;
    }
    for (const [said, some] of groupsOf(group, ({ by }) => by[k]?.() ?? '', k))
      split(some, said === '' ? name : `${name} · ${said}`, k + 1);
  };
  for (const [label, group] of groupsOf(all, ({ label }) => label)) split(group, label, 0);
  return found;
};

/** @param k given: where all say the same, nothing is said */
const groupsOf = (all: readonly Named[], of: (one: Named) => string, k?: number): Map<string, Named[]> => {
  const groups = new Map<string, Named[]>();
  for (const one of all) {
    const said = of(one);
    const group = groups.get(said);
    if (group === undefined) groups.set(said, [one]);
    else group.push(one);
  }
  return k !== undefined && groups.size === 1 ? new Map([['', [...all]]]) : groups;
};

const FACET_WORDS: Readonly<Record<Facet, string>> = {
  place: 'its place',
  cue: 'its cue',
  crew: 'who does it',
  words: 'the words',
  value: 'the value',
  rule: 'the rule',
  number: 'the number',
};

/**
 * An item of a deck by its words, the answer too where that names it (`toldLabel`): who sees the class is no learner. And
 * what tells it from others: what of its step is asked, its procedure, the revision, the words,
 * what it comes after, the variants.
 * @param revision '' for the newest
 */
export const namesIn = (resolved: Resolved, revision: string): ((item: Item) => Named) => {
  const titles = new Map((resolved.deck.procedures ?? []).map(({ id, title }) => [id, title]));
  let steps: ReadonlyMap<ItemKey, StepWords> | undefined;
  const stepOf = (key: ItemKey): StepWords | undefined => {
    steps ??= stepsOf(resolved);
    return steps.get(key);
  };
  const views = new Map(resolved.views.map(({ id, label }) => [id, label]));
  return (item) => ({
    key: item.key,
    label: toldLabel(resolved, item),
    by: [
      () => FACET_WORDS[item.facet],
      () => (item.groupKind === 'procedure' ? (titles.get(item.group) ?? '') : ''),
      () => revision,
      () => stepOf(item.key)?.after ?? '',
      () => stepOf(item.key)?.before ?? '',
      () => stepOf(item.key)?.where() ?? '',
      () => item.views.map((id) => views.get(id) ?? id).join(' / '),
    ],
  });
};

interface StepWords {
  /** What it comes after, of a callout that goes with an action what is said: what differs between situations. */
  readonly after: string;
  readonly before: string;
  /** The first situation that holds it. */
  readonly where: () => string;
}

const stepsOf = ({ deck, views }: Resolved): ReadonlyMap<ItemKey, StepWords> => {
  const found = new Map<ItemKey, StepWords>();
  for (const view of views)
    for (const procedure of view.procedures)
      for (const { id, steps, order } of procedure.situations) {
        const put = (key: ItemKey | null, after: string, before = '') => {
          if (key !== null && !found.has(key))
            found.set(key, { after, before, where: () => whereWords(branchWords(deck, view, procedure, id)) });
        };
        for (const [at, { place, words, step }] of steps.entries()) {
          const before = order.covers.flatMap(([a, b]) => (b === at ? (steps[a]?.text ?? []) : []));
          const after = order.covers.flatMap(([a, b]) => (a === at ? (steps[b]?.text ?? []) : []));
          const behind = before.length === 0 ? 'first' : `after ${before.join(' and ')}`;
          const ahead = after.length === 0 ? 'last' : `before ${after.join(' and ')}`;
          put(place, behind, ahead);
          // One that is all of its step has its words in its label.
          if (step.do === undefined) put(words, behind, ahead);
          else put(words, step.say === undefined ? '' : `“${step.say}”`, behind);
        }
      }
  return found;
};

const whereWords = (said: readonly string[]): string => (said.length === 0 ? '' : `where ${said.join(', ')}`);
