import { computed, type ReadonlySignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useMemo } from 'preact/hooks';
import { type Findings, FindingsContext, type Said } from '../fields/editing.ts';
import type { Live, LiveFindings } from '../model/live.ts';
import { fieldOf, outwards } from './places.ts';
import { formWords } from './words.ts';

const NONE: readonly Said[] = [];

interface ByPlace {
  readonly at: ReadonlyMap<string, readonly Said[]>;
  readonly within: ReadonlySet<string>;
}

const byPlace = ({ findings }: LiveFindings): ByPlace => {
  const at = new Map<string, Said[]>();
  const within = new Set<string>();
  for (const one of findings) {
    const place = fieldOf(one);
    const said = { severity: one.severity, text: formWords(one) };
    at.set(place, [...(at.get(place) ?? []), said]);
    for (const path of outwards(place)) within.add(path);
  }
  return { at, within };
};

const same = (a: readonly Said[], b: readonly Said[]): boolean =>
  a.length === b.length && a.every((one, i) => one.text === b[i]?.text && one.severity === b[i]?.severity);

/** What fields ask for: each is drawn anew only when something else is said of its own place. */
export const findingsOf = (found: ReadonlySignal<LiveFindings>): Findings => {
  const places = computed(() => byPlace(found.value));
  const at = new Map<string, ReadonlySignal<readonly Said[]>>();
  const within = new Map<string, ReadonlySignal<boolean>>();
  const kept = <T,>(map: Map<string, ReadonlySignal<T>>, path: string, read: () => T): T => {
    const known = map.get(path) ?? computed(read);
    map.set(path, known);
    return known.value;
  };
  return {
    at: (path) => {
      let before = NONE;
      return kept(at, path, () => {
        const now = places.value.at.get(path) ?? NONE;
        if (!same(before, now)) before = now;
        return before;
      });
    },
    within: (path) => kept(within, path, () => places.value.within.has(path)),
  };
};

/** Gives the fields below what the checker says of the draft. */
export function FindingsProvider(props: { readonly live: Live; readonly children: ComponentChildren }) {
  const { live, children } = props;
  const findings = useMemo(() => findingsOf(live.found), [live]);
  return <FindingsContext.Provider value={findings}>{children}</FindingsContext.Provider>;
}
