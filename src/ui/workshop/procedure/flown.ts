import { useEffect, useState } from 'preact/hooks';
import { type Flown, flownFrom } from '../../../draft/flown.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { DraftModel } from '../model/draft.ts';

/** What is typed is looked at when it rests, ms. */
const REST = 300;

export interface Looked<T> {
  /** The draft that it is of. */
  readonly doc: Json;
  /** null: the draft does not yet say enough. */
  readonly found: T | null;
}

/** Something that takes a while to work out of a procedure; null before it was. It may be of a draft just left behind. */
export const useFlown = <T>(
  draft: DraftModel,
  index: number,
  read: (flown: Flown, doc: Json) => T,
): Looked<T> | null => {
  const doc = draft.value.value;
  const [looked, setLooked] = useState<Looked<T> | null>(null);
  useEffect(() => {
    const wait = setTimeout(
      () => {
        const flown = flownFrom(doc, index);
        setLooked({ doc, found: flown === null ? null : read(flown, doc) });
      },
      looked === null ? 0 : REST,
    );
    return () => clearTimeout(wait);
  }, [doc, index]);
  return looked;
};
