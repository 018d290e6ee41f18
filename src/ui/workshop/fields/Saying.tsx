import { type ComponentChildren, createContext } from 'preact';
import { useContext, useEffect, useState } from 'preact/hooks';

/** Says what came of a press to those who do not see it. */
export type Say = (words: string) => void;

const SayContext = createContext<Say>(() => {});
export const useSay = (): Say => useContext(SayContext);

const NOTHING = { words: '', times: 0 };

/** One place where all of a page say what was moved or removed; another page begins with nothing said. */
export function Saying(props: { readonly page: string; readonly children: ComponentChildren }) {
  const [said, setSaid] = useState(NOTHING);
  useEffect(() => () => setSaid(NOTHING), [props.page]);
  // Kept from one drawing to the next: what stands below is not drawn anew for what is said.
  const [say] = useState<Say>(() => (words: string) => setSaid(({ times }) => ({ words, times: times + 1 })));
  return (
    <SayContext.Provider value={say}>
      {props.children}
      <p class="hidden-visually" aria-live="polite" data-said="">
        {/* Another element each time: the same words twice are said twice. */}
        <span key={said.times}>{said.words}</span>
      </p>
    </SayContext.Provider>
  );
}
