import { afterEach, expect, test, vi } from 'vitest';
import { entriesOf, keepRest, matchRest } from '../../../src/sw/rest.ts';

const SCOPE = 'https://recency.invalid/app/';
const ENTRIES = entriesOf('Ab12 page.html?7');

/** A cache of the browser, and a network that has every file. */
const world = (room = true) => {
  const kept = new Map<string, Response>();
  const cache = {
    match: async (key: string) => kept.get(key)?.clone(),
    put: async (key: string, response: Response) => {
      if (!room) throw new DOMException('no room', 'QuotaExceededError');
      kept.set(key, response);
    },
  };
  vi.stubGlobal('caches', { open: async () => cache });
  const network = vi.fn(async (url: URL, _how?: RequestInit) => new Response(`of ${url.pathname}`));
  vi.stubGlobal('fetch', network);
  return { kept, network };
};
afterEach(() => vi.unstubAllGlobals());

const match = async (name: string) => {
  const works: Promise<void>[] = [];
  const response = await matchRest(SCOPE, ENTRIES, new URL(name, SCOPE), (work) => works.push(work));
  const text = await response.text();
  await Promise.all(works);
  return text;
};

test('what is not kept is fetched once, and kept under its revision', async () => {
  const { kept, network } = world();
  for (const name of ['assets/Ab12.js', 'page.html', 'assets/Ab12.js', 'page.html'])
    expect(await match(name)).toBe(`of /app/${name}`);
  expect([...kept.keys()]).toEqual([`${SCOPE}assets/Ab12.js`, `${SCOPE}page.html?revision=7`]);
  expect(network.mock.calls.map(([, how]) => how?.cache)).toEqual(['default', 'reload']);
});

test('where there is no room the file that came is answered with; keeping all of them says that it failed', async () => {
  const { kept } = world(false);
  expect(await match('assets/Ab12.js')).toBe('of /app/assets/Ab12.js');
  expect(kept.size).toBe(0);
  await expect(keepRest(SCOPE, ENTRIES)).rejects.toThrow('no room');
});

test('a page of faults is no file', async () => {
  const { kept, network } = world();
  network.mockImplementation(async () => new Response('', { status: 404 }));
  await expect(match('assets/Ab12.js')).rejects.toThrow('assets/Ab12.js: 404');
  await expect(keepRest(SCOPE, ENTRIES)).rejects.toThrow('assets/Ab12.js: 404');
  expect(kept.size).toBe(0);
});
