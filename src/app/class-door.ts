import { openClassStore } from '../class/store.ts';
import type { ClassDoor } from '../class/types.ts';
import { fromBase64url } from '../exchange/base64url.ts';
import { fingerprintOf } from '../exchange/fingerprint.ts';
import { openReport } from '../exchange/report.ts';
import { asProblem } from '../store/problem.ts';

/** The class as this browser keeps it. */
export const classDoor: ClassDoor = {
  store: () => openClassStore({ problem: asProblem }),
  // Nothing is taken in whose signature was not looked at.
  open: async (text) => {
    const opened = await openReport(text);
    if (!opened.ok) throw new Error(opened.error.message);
    return opened.value;
  },
  letters: (key) => fingerprintOf(fromBase64url(key) ?? new Uint8Array()).letters,
  home: new URL('./', document.baseURI).href.replace(/#.*$/, ''),
};
