import { signal } from '@preact/signals';

/**
 * Where the learner is, in the fragment of the address: the service worker answers the one page, and the phone's own
 * back button works.
 */
export type Route =
  | {
      readonly at:
        | 'brief'
        | 'drill'
        | 'debrief'
        | 'decks'
        | 'settings'
        | 'install'
        | 'date'
        | 'rehearse'
        | 'last-look'
        | 'missed'
        | 'report'
        | 'record'
        | 'assign';
    }
  /** A deck by its id, or one of its things to read. */
  | { readonly at: 'deck' | 'variants' | 'print' | 'amendment'; readonly deck: string }
  | { readonly at: 'read' | 'paced'; readonly deck: string; readonly thing: string }
  /** The class of an instructor; one trainee of it by the device's key, or `kept`: what is kept of it, and for how long. */
  | { readonly at: 'class'; readonly of?: string | undefined }
  /** The Workshop: all drafts, one draft, or a page of it: `procedures/0`. */
  | { readonly at: 'workshop'; readonly draft?: string; readonly page?: string };

const PLAIN = [
  'drill',
  'debrief',
  'decks',
  'settings',
  'install',
  'date',
  'rehearse',
  'last-look',
  'missed',
  'report',
  'record',
  'assign',
] as const;

const readRoute = (hash: string): Route => {
  const [at = '', ...rest] = hash.replace(/^#\/?/, '').split('/').map(decoded);
  const plain = PLAIN.find((one) => one === at);
  if (plain !== undefined) return { at: plain };
  const [deck, thing] = rest;
  if (at === 'class') return { at, of: deck };
  if (at === 'workshop') {
    if (deck === undefined || deck === '') return { at };
    return rest.length === 1 ? { at, draft: deck } : { at, draft: deck, page: rest.slice(1).join('/') };
  }
  if (deck !== undefined && deck !== '') {
    if (at === 'deck' || at === 'variants' || at === 'print' || at === 'amendment') return { at, deck };
    if ((at === 'read' || at === 'paced') && thing !== undefined) return { at, deck, thing };
  }
  return { at: 'brief' };
};

const decoded = (part: string): string => {
  try {
    return decodeURIComponent(part);
  } catch {
    return '';
  }
};

const hashOf = (route: Route): string => {
  const parts: string[] = [route.at === 'brief' ? '' : route.at];
  if ('deck' in route) parts.push(route.deck);
  if ('thing' in route) parts.push(route.thing);
  if (route.at === 'workshop') {
    if (route.draft !== undefined) parts.push(route.draft);
    if (route.page !== undefined) parts.push(...route.page.split('/'));
  }
  return `#/${parts.map(encodeURIComponent).join('/')}`;
};

export const route = signal<Route>({ at: 'brief' });

/** Follows the address. @returns how to stop */
export const followAddress = (): (() => void) => {
  const read = () => {
    route.value = readRoute(location.hash);
  };
  read();
  addEventListener('hashchange', read);
  return () => removeEventListener('hashchange', read);
};

/** @param instead leaves no trace in the browser's history: for what must not be come back to */
export const go = (to: Route, instead?: 'instead'): void => {
  if (instead) {
    history.replaceState(null, '', hashOf(to));
    route.value = to;
  } else location.hash = hashOf(to);
};
