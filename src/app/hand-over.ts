import { download } from './save-text.ts';

/** A deck, or a report, leaves the device as a file. */
export const handing = {
  /** Saves it where the browser saves files. */
  download: (name: string, text: string): void =>
    download(new File([text], name, { type: name.endsWith('.json') ? 'application/json' : 'text/plain' })),
  /** Where other apps can be given it. Chromium refuses to share .json, so it goes as text. */
  canShare: (): boolean => navigator.canShare?.({ files: [asText('a.deck.json', '{}')] }) === true,
  /** @returns false when it was called off. @throws where the platform refuses after all */
  share: async (name: string, text: string): Promise<boolean> => {
    try {
      await navigator.share({ files: [asText(name, text)], title: name });
      return true;
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return false;
      throw error;
    }
  },
  /** @throws where the browser forbids it */
  copy: (text: string): Promise<void> => navigator.clipboard.writeText(text),
  /** Address that opens the app with a deck which lies at an address of its own. */
  linkTo: (deck: string): string => `${new URL('./open.html', document.baseURI).href}#deck=${deck}`,
};

const asText = (name: string, text: string): File =>
  new File([text], name.replace(/\.json$/, '.txt'), { type: 'text/plain' });
