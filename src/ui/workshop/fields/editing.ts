import { computed, type ReadonlySignal } from '@preact/signals';
import { createContext } from 'preact';
import { useContext, useMemo } from 'preact/hooks';
import type { Json } from '../../../lib/canonical-json.ts';
import type { DraftModel } from '../model/draft.ts';

/** What the checker says of one place. */
export interface Said {
  readonly severity: 'error' | 'warning' | 'hint';
  readonly text: string;
}

export interface Findings {
  /** Of exactly this place. Reading it follows what changes. */
  at(path: string): readonly Said[];
  /** Is there any at this place or within? */
  within(path: string): boolean;
  /** The cursor was in the field of a place and is there no more. */
  left(path: string): void;
}

const NONE: readonly Said[] = [];

/** The checker's findings for all fields below. */
export const FindingsContext = createContext<Findings>({ at: () => NONE, within: () => false, left: () => {} });

/** The draft that the fields below write in. */
export const DraftContext = createContext<DraftModel | null>(null);

export const useDraft = (): DraftModel => {
  const draft = useContext(DraftContext);
  if (draft === null) throw new Error('a field stands outside of a draft');
  return draft;
};

/** What comes of the draft: drawn anew only when that is another value. */
export const useOf = <T>(read: (draft: DraftModel) => T, key: string): T => {
  const draft = useDraft();
  const of: ReadonlySignal<T> = useMemo(() => computed(() => read(draft)), [draft, key]);
  return of.value;
};

/** What stands at a pointer. */
export const useAt = (path: string): Json | undefined => useOf((draft) => draft.at(path), path);

/** Id of an element for a place of the draft: ids hold no spaces. */
export const domId = (path: string, what = 'field'): string => `${what}:${encodeURIComponent(path)}`;

/** A member of an object. */
export const below = (path: string, key: string | number): string =>
  `${path}/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`;
