import { type ComponentChildren, createContext } from 'preact';
import { useContext, useState } from 'preact/hooks';

/** Says what came of a press to those who do not see it. */
export type Say = (words: string) => void;

const SayContext = createContext<Say>(() => {});
export const useSay = (): Say => useContext(SayContext);

/** One place of a page where all its fields say what was moved or removed. */
export function Saying(props: { readonly children: ComponentChildren }) {
  const [said, setSaid] = useState({ words: '', times: 0 });
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
