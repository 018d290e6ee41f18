/**
 * The service worker: keeps the built app on the device, so that it works after the first load with the network off.
 *
 * Two lists, put in by the build: `first` (what a start needs, the decks among it) is kept before the worker counts
 * as installed; `rest` (what is loaded when wanted) is kept when the page asks for it, after the start. A new version
 * waits until the page says SKIP_WAITING, which it does between drills only (src/app/update.ts).
 */
import { cleanupOutdatedCaches } from 'workbox-precaching/cleanupOutdatedCaches.js';
import { PrecacheController } from 'workbox-precaching/PrecacheController.js';
import { PrecacheRoute } from 'workbox-precaching/PrecacheRoute.js';
import { NavigationRoute } from 'workbox-routing/NavigationRoute.js';
import { registerRoute } from 'workbox-routing/registerRoute.js';
import { keepRest, matchRest, type RestEntry, sweepRest } from './rest.ts';
import { takeShare } from './share.ts';

declare const self: ServiceWorkerGlobalScope;
declare const __FIRST__: readonly RestEntry[];
declare const __REST__: readonly RestEntry[];

const first = new PrecacheController();
first.addToCacheList([...__FIRST__]);
const scope = self.registration.scope;

self.addEventListener('install', (event) => {
  event.waitUntil(first.install(event));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      await first.activate(event);
      await sweepRest(scope, __REST__);
      // The page of the very first visit was loaded without a worker; claimed, it works offline from that visit on.
      // Pages of an older version have this worker already, since they (and no one else) asked it to take over.
      await self.clients.claim();
    })(),
  );
});

cleanupOutdatedCaches();

self.addEventListener('message', (event) => {
  const type = (event.data as { type?: unknown } | null)?.type;
  if (type === 'SKIP_WAITING') event.waitUntil(self.skipWaiting());
  if (type === 'KEEP_REST') {
    const port = event.ports[0];
    event.waitUntil(
      keepRest(scope, __REST__).then(
        () => port?.postMessage(true),
        () => port?.postMessage(false),
      ),
    );
  }
});

registerRoute(new PrecacheRoute(first, { cleanURLs: false }));
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && __REST__.some((entry) => new URL(entry.url, scope).pathname === url.pathname),
  ({ url }) => matchRest(scope, __REST__, url),
);
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname === new URL('share', scope).pathname,
  ({ request }) => takeShare(scope, request),
  'POST',
);
// The app lives at one address; `?go=…` says where in it. Any other page, open.html among them, is its own file.
const home = new URL(scope).pathname;
registerRoute(
  new NavigationRoute(first.createHandlerBoundToURL('index.html'), {
    allowlist: [new RegExp(`^${home.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(index\\.html)?(\\?|$)`)],
  }),
);
