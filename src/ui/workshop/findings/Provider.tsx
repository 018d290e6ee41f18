import { computed, type ReadonlySignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Json } from '../../../lib/canonical-json.ts';
import { type Findings, FindingsContext, type Said } from '../fields/editing.ts';
import type { DraftModel } from '../model/draft.ts';
import type { Live, LiveFindings } from '../model/live.ts';
import { fieldOf, outwards } from './places.ts';
import { createQuiet, type Quiet, QuietContext } from './quiet.ts';
import { formWords } from './words.ts';

const NONE: readonly Said[] = [];

interface ByPlace {
  readonly at: ReadonlyMap<string, readonly Said[]>;
  readonly within: ReadonlySet<string>;
}

const byPlace = ({ findings }: LiveFindings, doc: Json, quiet: Quiet): ByPlace => {
  const at = new Map<string, Said[]>();
  const within = new Set<string>();
  for (const one of findings) {
    if (quiet.is(one)) continue;
    const place = fieldOf(one);
    const said = { severity: one.severity, text: formWords(one, doc) };
    at.set(place, [...(at.get(place) ?? []), said]);
    for (const path of outwards(place)) within.add(path);
  }
  return { at, within };
};

const same = (a: readonly Said[], b: readonly Said[]): boolean =>
  a.length === b.length && a.every((one, i) => one.text === b[i]?.text && one.severity === b[i]?.severity);

/** What fields ask for: each is drawn anew only when something else is said of its own place. */
export const findingsOf = (
  found: ReadonlySignal<LiveFindings>,
  draft: Pick<DraftModel, 'value'>,
  quiet: Quiet = createQuiet(draft),
): Findings => {
  // What was found is of the draft as it was when it was looked at: reading it anew at each key would gain nothing.
  const places = computed(() => byPlace(found.value, draft.value.peek(), quiet));
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
    left: quiet.left,
  };
};

/** Gives the fields below what the checker says of the draft. */
export function FindingsProvider(props: {
  readonly draft: DraftModel;
  readonly live: Live;
  readonly page: string;
  readonly children: ComponentChildren;
}) {
  const { draft, live, page, children } = props;
  const quiet = useMemo(() => createQuiet(draft), [draft]);
  useMemo(() => quiet.visit(page), [quiet, page]);
  const findings = useMemo(() => findingsOf(live.found, draft, quiet), [live, draft, quiet]);
  return (
    <QuietContext.Provider value={quiet}>
      <FindingsContext.Provider value={findings}>{children}</FindingsContext.Provider>
    </QuietContext.Provider>
  );
}
