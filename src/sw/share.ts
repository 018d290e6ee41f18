/** What another app shares with this one (Web Share Target): kept for the page, which takes it as any other deck. */

/** More than a saved copy of many years has. What is too large for a deck the app refuses. */
const MOST_BYTES = 64_000_000;

/** The page looks for it there too (src/app/shared.ts). */
const cacheName = (scope: string): string => `recency-shared-${scope}`;

const textOf = (value: FormDataEntryValue | null): string => (typeof value === 'string' ? value.trim() : '');

/** An address of a deck, where what was shared is one or ends with one. */
const addressIn = (...texts: readonly string[]): string | null => {
  for (const text of texts) {
    const found = /(?:^|\s)(https:\/\/\S+)$/.exec(text)?.[1];
    if (found !== undefined) return found;
  }
  return null;
};

/** @returns where the browser goes on: to the app, or to the page of linked decks */
export const takeShare = async (scope: string, request: Request): Promise<Response> => {
  const form = await request.formData();
  // A form with nothing chosen has a file without name and content.
  const file = form.getAll('deck').find((one): one is File => typeof one !== 'string' && one.size > 0);
  const [text, url] = [textOf(form.get('text')), textOf(form.get('url'))];
  const address = file === undefined && !text.startsWith('{') ? addressIn(url, text) : null;
  if (address !== null) return Response.redirect(new URL(`open.html#deck=${encodeURIComponent(address)}`, scope), 303);
  const body = file?.slice(0, MOST_BYTES) ?? text.slice(0, MOST_BYTES);
  const cache = await caches.open(cacheName(scope));
  const headers = { 'X-Name': encodeURIComponent(file?.name ?? 'Shared text') };
  await cache.put(new URL('shared', scope), new Response(body, { headers }));
  return Response.redirect(new URL('?go=incoming', scope), 303);
};
