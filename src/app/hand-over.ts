import type { Place } from '../model/second-device.ts';
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
  /**
   * Puts it in a folder of this app's server (WebDAV); never over a file that is there, unless it is the same.
   * @throws FolderProblem, and where the code for it cannot be had
   */
  drop: async ({ address, login }: Place, name: string, text: string): Promise<'put' | 'same' | 'other'> => {
    const { folderAddress, webdav } = await import('../sync/webdav.ts').catch(() => {
      throw new Error('The part of the app that reaches a folder could not be loaded. Go online, then try again.');
    });
    const folder = webdav(folderAddress(address, location.href), login);
    if ((await folder.put(name, new TextEncoder().encode(text))) === 'put') return 'put';
    return new TextDecoder().decode(await folder.get(name)) === text ? 'same' : 'other';
  },
  /** @throws where the browser forbids it */
  copy: (text: string): Promise<void> => navigator.clipboard.writeText(text),
  /** Address that opens the app with a deck which lies at an address of its own. */
  linkTo: (deck: string): string => `${new URL('./open.html', document.baseURI).href}#deck=${deck}`,
};

const asText = (name: string, text: string): File =>
  new File([text], name.replace(/\.json$/, '.txt'), { type: 'text/plain' });
