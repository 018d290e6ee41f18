/** What another app shared, as the service worker left it (src/sw/share.ts); once. Null where there is nothing. */
export const takeShared = async (): Promise<{ readonly name: string; readonly text: string } | null> => {
  if (typeof caches === 'undefined') return null;
  const scope = new URL('./', document.baseURI).href.replace(/[?#].*$/, '');
  const name = `recency-shared-${scope}`;
  try {
    const cache = await caches.open(name);
    const found = await cache.match(new URL('shared', scope));
    await caches.delete(name);
    if (found === undefined) return null;
    return { name: decodeURIComponent(found.headers.get('X-Name') ?? ''), text: await found.text() };
  } catch {
    // A browser that forbids caches forbids the service worker too.
    return null;
  }
};
