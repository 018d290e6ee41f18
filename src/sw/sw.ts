/**
 * The service worker: keeps the built app on the device, so that it works after the first load with the network off.
 *
 * Lists, put in by the build: `first` (what a start needs, the decks among it) is kept before the worker counts
 * as installed; `rest` (what is loaded when wanted) is kept when the page asks for it, after the start; a third,
 * `workshop`, once the Workshop was opened here, and from then on like `rest`. A new version
 * waits until the page says SKIP_WAITING, which it does between drills only (src/app/update.ts).
 */
import { PrecacheController } from 'workbox-precaching/PrecacheController.js';
import { PrecacheRoute } from 'workbox-precaching/PrecacheRoute.js';
import { registerRoute } from 'workbox-routing/registerRoute.js';
import { entriesOf, keepRest, matchRest, type RestEntry, sweepRest, wantWorkshop, workshopWanted } from './rest.ts';
import { takeShare } from './share.ts';

declare const self: ServiceWorkerGlobalScope;
declare const __FIRST__: string;
declare const __REST__: string;
declare const __WORKSHOP__: string;

const first = new PrecacheController();
first.addToCacheList(entriesOf(__FIRST__));
const scope = self.registration.scope;
const rest = entriesOf(__REST__);
const workshop = entriesOf(__WORKSHOP__);
const all = [...rest, ...workshop];

self.addEventListener('install', (event) => {
  event.waitUntil(first.install(event));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      await first.activate(event);
      await sweepRest(scope, all);
      // The page of the very first visit was loaded without a worker; claimed, it works offline from that visit on.
      // Pages of an older version have this worker already, since they (and no one else) asked it to take over.
      await self.clients.claim();
    })(),
  );
});

/** One at a time: the page asks for it, and the Workshop's first file does. */
let keeping: Promise<void> = Promise.resolve();
const keepWanted = (): Promise<void> => {
  const next = keeping.then(async () => keepRest(scope, (await workshopWanted(scope)) ? all : rest));
  keeping = next.catch(() => undefined);
  return next;
};

self.addEventListener('message', (event) => {
  const type = (event.data as { type?: unknown } | null)?.type;
  if (type === 'SKIP_WAITING') event.waitUntil(self.skipWaiting());
  if (type === 'KEEP_REST') {
    const port = event.ports[0];
    event.waitUntil(
      keepWanted().then(
        () => port?.postMessage(true),
        () => port?.postMessage(false),
      ),
    );
  }
});

registerRoute(new PrecacheRoute(first, { cleanURLs: false }));
const isOf = (entries: readonly RestEntry[], url: URL): boolean =>
  entries.some((entry) => new URL(entry.url, scope).pathname === url.pathname);
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && isOf(all, url),
  ({ url, event }) => {
    // Opened here: all of it is to be there when the network is gone, and of later versions too.
    if (isOf(workshop, url))
      event.waitUntil(
        wantWorkshop(scope)
          .then(keepWanted)
          .catch(() => undefined),
      );
    return matchRest(scope, all, url, (work) => event.waitUntil(work));
  },
);
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname === new URL('share', scope).pathname,
  ({ request }) => takeShare(scope, request),
  'POST',
);
// The app lives at one address; `?go=…` says where in it. Any other page, open.html among them, is its own file.
const home = new URL(scope).pathname;
registerRoute(
  ({ url, request, sameOrigin }) =>
    sameOrigin && request.mode === 'navigate' && (url.pathname === home || url.pathname === `${home}index.html`),
  first.createHandlerBoundToURL('index.html'),
);
