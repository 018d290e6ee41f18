import { checkAssignment, readAssignment, writeAssignment } from '../exchange/assignment.ts';
import { assignmentFragment } from '../exchange/assignment-link.ts';
import { toBase64url } from '../exchange/base64url.ts';
import type { Assigning } from '../ui/device.ts';
import { putAsk, takeFetched } from './assigned.ts';

export const assigning: Assigning = {
  newId: () => toBase64url(crypto.getRandomValues(new Uint8Array(16))),
  write: writeAssignment,
  read: readAssignment,
  check: checkAssignment,
  link: async (assignment) => new URL('./open.html', document.baseURI).href + (await assignmentFragment(assignment)),
  fetchDecks: (ask) => {
    putAsk(sessionStorage, ask);
    location.assign('./open.html#assigned');
  },
  takeFetched: (text) => {
    try {
      return takeFetched(sessionStorage, text);
    } catch {
      // Forbidden: then nothing was left there either.
      return null;
    }
  },
};
