/** A file to be kept; `url` relative to the scope, `revision` null where the name itself carries a hash. */
export interface RestEntry {
  readonly url: string;
  readonly revision: string | null;
}

/** Entries of a list of the build: a word is a name in `assets/` that carries a hash, or an address, `?` and its revision. */
export const entriesOf = (listed: string): RestEntry[] =>
  listed.split(' ').map((word) => {
    const [url = '', revision] = word.split('?');
    return revision === undefined
      ? { url: `assets/${url}${url.includes('.') ? '' : '.js'}`, revision: null }
      : { url, revision };
  });

/** One cache per scope: several apps may live in folders of one host. */
const open = (scope: string): Promise<Cache> => caches.open(`recency-rest-${scope}`);

/** The address under which a file is kept: its revision is part of it. */
const keyOf = (scope: string, entry: RestEntry): string => {
  const url = new URL(entry.url, scope);
  if (entry.revision !== null) url.searchParams.set('revision', entry.revision);
  return url.href;
};

/** @throws When it cannot be fetched. */
const load = async (scope: string, entry: RestEntry): Promise<Response> => {
  // A file without a hash in its name may lie outdated in the browser's own cache.
  const response = await fetch(new URL(entry.url, scope), { cache: entry.revision === null ? 'default' : 'reload' });
  if (!response.ok) throw new Error(`${entry.url}: ${response.status}`);
  return response;
};

/**
 * Keeps what is not yet kept, one after the other, out of the way of the page.
 * @throws At the first file that cannot be fetched or kept.
 */
export const keepRest = async (scope: string, entries: readonly RestEntry[]): Promise<void> => {
  const cache = await open(scope);
  for (const entry of entries) {
    const key = keyOf(scope, entry);
    if ((await cache.match(key)) === undefined) await cache.put(key, await load(scope, entry));
  }
};

/**
 * A kept file, or the same fetched and, where there is room, kept.
 * @param later what outlasts the answer
 * @throws When it is not kept and cannot be fetched.
 */
export const matchRest = async (
  scope: string,
  entries: readonly RestEntry[],
  url: URL,
  later: (work: Promise<void>) => void,
): Promise<Response> => {
  const entry = entries.find((one) => new URL(one.url, scope).pathname === url.pathname);
  if (entry === undefined) return fetch(url);
  const cache = await open(scope);
  const key = keyOf(scope, entry);
  const kept = await cache.match(key);
  if (kept !== undefined) return kept;
  const response = await load(scope, entry);
  later(cache.put(key, response.clone()).catch(() => undefined));
  return response;
};

/** Stands among what is kept where the Workshop was opened; no file of the app has its name. */
const wish = (scope: string): string => new URL('workshop-wanted', scope).href;
export const wantWorkshop = async (scope: string): Promise<void> => {
  await (await open(scope)).put(wish(scope), new Response(''));
};
export const workshopWanted = async (scope: string): Promise<boolean> =>
  (await (await open(scope)).match(wish(scope))) !== undefined;

/** Forgets what an older version kept. */
export const sweepRest = async (scope: string, entries: readonly RestEntry[]): Promise<void> => {
  const cache = await open(scope);
  const wanted = new Set([wish(scope), ...entries.map((entry) => keyOf(scope, entry))]);
  for (const request of await cache.keys()) {
    if (!wanted.has(request.url)) await cache.delete(request);
  }
};
