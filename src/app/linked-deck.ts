/** Fetching a deck that a link names: `open.html#deck=https://host/file.deck.json`. */
import { readAtMost } from '../exchange/read-at-most.ts';
import { fail, ok, type Result } from '../lib/result.ts';
import type { Incoming } from './incoming.ts';

/** Bytes; a deck is never larger. */
const MOST = 2_000_000;
/** Ms for the whole transfer. */
const TIMEOUT = 20_000;

/**
 * The address in the page's own fragment, plain or percent-encoded.
 * @param hash With its `#`.
 */
export const linkedAddress = (hash: string): Result<URL, string> => {
  const match = /^#deck=(.+)$/s.exec(hash);
  const written = match?.[1];
  if (written === undefined) return fail('This link names no deck. It should end in #deck= and an https address.');
  let url: URL;
  try {
    url = new URL(/^https?%3a/i.test(written) ? decodeURIComponent(written) : written);
  } catch {
    return fail('The address in this link cannot be read. Ask whoever sent it for a new one.');
  }
  if (url.protocol !== 'https:') return fail('Decks are fetched over https only; this link says otherwise.');
  if (url.username !== '' || url.password !== '')
    return fail('This link carries a name or password. Ask for one without.');
  url.hash = '';
  return ok(url);
};

/**
 * The fragment of a link to this page that stands where a deck's address should: it is opened, not fetched.
 * @param hash With its `#`.
 * @param page Address of this page.
 * @returns with its `#`; null where it is none
 */
export const ownLink = (hash: string, page: string): string | null => {
  const written = /^#deck=(.+)$/s.exec(hash)?.[1] ?? '';
  let link: string;
  try {
    link = /^https?%3a/i.test(written) ? decodeURIComponent(written) : written;
  } catch {
    return null;
  }
  const here = page.replace(/#.*$/s, '#');
  return link.startsWith(here) && link.length > here.length ? link.slice(here.length - 1) : null;
};

/**
 * Fetches the text, without cookies and without saying where the link was. The text is not looked at.
 * @param fetcher `fetch`, or in tests another.
 */
export const fetchLinked = async (
  url: URL,
  fetcher: typeof fetch,
  limits: { readonly most: number; readonly timeout: number } = { most: MOST, timeout: TIMEOUT },
): Promise<Result<Incoming, string>> => {
  try {
    const response = await fetcher(url, {
      mode: 'cors',
      credentials: 'omit',
      referrerPolicy: 'no-referrer',
      cache: 'no-store',
      signal: AbortSignal.timeout(limits.timeout),
    });
    if (!response.ok)
      return fail(`${url.host} answered ${response.status}: the deck is not there, or not for everyone.`);
    const from = response.url === '' ? url.href : response.url;
    if (!from.startsWith('https:')) return fail('The host sent us on to an address without https. Nothing was taken.');
    const bytes = response.body === null ? new Uint8Array() : await readAtMost(response.body, limits.most);
    if (bytes === null) return fail(`The file is larger than ${limits.most / 1_000_000} MB. A deck never is.`);
    if (bytes.byteLength === 0) return fail('The file is empty.');
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    if (/^\s*</.test(text))
      return fail(
        `${new URL(from).host} sent a web page, not a deck. Perhaps one must sign in there first, or the link leads to a page that shows the file: ask for the address of the file itself.`,
      );
    return ok({ from, text });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'TimeoutError') {
      return fail(`${url.host} did not send the deck within ${limits.timeout / 1000} s. Try again later.`);
    }
    // A decoder that met no UTF-8 throws a TypeError as fetch does; its code tells them apart.
    if (error instanceof TypeError && 'code' in error) return fail('The file is no UTF-8 text.');
    return fail(
      `${url.host} could not be reached: there is no network, or it does not let other sites read the file (CORS). ` +
        'Save the file and open it in Recency instead.',
    );
  }
};
