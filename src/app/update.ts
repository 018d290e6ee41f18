/**
 * Updates of the app, without a screen: registers the service worker, tells when a new version waits and when all of
 * the app is kept for offline use, and lets a new version take over when it is accepted.
 *
 * A new version deletes files that an open page of the old one may still load, so it takes over between drills only:
 * here (`setBusy`), and in every other tab, which is asked first.
 */
import { Workbox } from 'workbox-window';

export interface UpdateState {
  /** A new version is loaded and waits to be accepted. */
  readonly waiting: boolean;
  /** Everything is kept: all of the app works with the network off. */
  readonly offlineReady: boolean;
  /** This page is of an older version than its files; only a reload helps. Offer it. */
  readonly stale: boolean;
}

/**
 * `reloading`: the new version takes over and the page reloads by itself. `busy-here`, `busy-elsewhere`: a drill is
 * under way in this tab or another; nothing happened. `none`: no new version waits.
 */
export type Accepted = 'reloading' | 'busy-here' | 'busy-elsewhere' | 'none';

export interface Updates {
  /** Calls with the present state at once and then with each change. Returns how to stop. */
  subscribe(listener: (state: UpdateState) => void): () => void;
  /** The app says when a drill begins (true) and when it is over or left (false). */
  setBusy(busy: boolean): void;
  /** The learner wants the new version. Answers within about half a second. */
  accept(): Promise<Accepted>;
  /** Reloads this page, for a learner who was told that it is stale. */
  reload(): void;
  dispose(): void;
}

/** The service worker as updates need it. */
export interface WorkerPort {
  register(): Promise<void>;
  /** Looks for a new version. */
  check(): Promise<void>;
  takeOver(): void;
  /** Whether all files are kept now; fetches what is missing. */
  keepRest(): Promise<boolean>;
  onWaiting(listener: () => void): void;
  /** Another version of the worker took over this page. Not called for the first worker of a page without one. */
  onReplaced(listener: () => void): void;
}

/** The other tabs. */
export type Tabs = Pick<BroadcastChannel, 'postMessage' | 'addEventListener' | 'close'>;

export interface UpdateEnvironment {
  /** Null where there is none: in development, or in a browser without service workers. */
  readonly worker: WorkerPort | null;
  readonly tabs: Tabs | null;
  readonly reload: () => void;
  /** `vite:preloadError`, `visibilitychange` and `online` of the page. */
  readonly page: EventTarget;
  readonly isVisible: () => boolean;
  /** Monotonic ms. */
  readonly elapsed: () => number;
}

/** How long other tabs have to say that a drill is under way in them, ms. */
const ASKING = 400;
/** Safari may never say that the new worker took over; then the page reloads after this many ms all the same. */
const PATIENCE = 2000;
/** A page that is left open looks for a new version when it is shown again, at most so often, ms. */
const CHECK_EVERY = 3_600_000;

const browserWorker = (): WorkerPort | null => {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return null;
  const workbox = new Workbox(new URL('sw.js', document.baseURI).href);
  // The library's own isUpdate stays false for the whole life of a page that was loaded without a worker.
  let controlled = navigator.serviceWorker.controller !== null;
  return {
    register: async () => void (await workbox.register()),
    check: () => workbox.update(),
    takeOver: () => workbox.messageSkipWaiting(),
    keepRest: async () => {
      await workbox.active;
      return (await workbox.messageSW({ type: 'KEEP_REST' })) === true;
    },
    onWaiting: (listener) => workbox.addEventListener('waiting', listener),
    onReplaced: (listener) =>
      navigator.serviceWorker.addEventListener('controllerchange', () => {
        if (controlled) listener();
        controlled = true;
      }),
  };
};

/** The page and the document send different events; one target for all three. */
const browserPage = (): EventTarget => {
  const page = new EventTarget();
  const pass = (event: Event) => page.dispatchEvent(new Event(event.type));
  window.addEventListener('vite:preloadError', pass);
  window.addEventListener('online', pass);
  document.addEventListener('visibilitychange', pass);
  return page;
};

const browser = (): UpdateEnvironment => ({
  worker: browserWorker(),
  tabs: 'BroadcastChannel' in window ? new BroadcastChannel('recency-updates') : null,
  reload: () => location.reload(),
  page: browserPage(),
  isVisible: () => document.visibilityState === 'visible',
  elapsed: () => performance.now(),
});

type Message = { readonly ask: string } | { readonly busy: string };

/** Starts at once. One per page. */
export const createUpdates = (environment: UpdateEnvironment = browser()): Updates => {
  const { worker, tabs, page } = environment;
  const listeners = new Set<(state: UpdateState) => void>();
  const asked = new Map<string, () => void>();
  let state: UpdateState = { waiting: false, offlineReady: false, stale: false };
  let busy = false;
  let disposed = false;
  let checked = environment.elapsed();

  const change = (part: Partial<UpdateState>) => {
    if (disposed) return;
    state = { ...state, ...part };
    for (const listener of listeners) listener(state);
  };

  let reloading = false;
  const reload = () => {
    if (reloading || disposed) return;
    reloading = true;
    environment.reload();
  };

  const keepRest = async () => {
    if (worker === null || state.offlineReady) return;
    // Not kept (no network, no room) is no error: the app works, and the next start tries again.
    const kept = await worker.keepRest().catch(() => false);
    if (kept) change({ offlineReady: true });
  };

  const check = async () => {
    if (worker === null || !environment.isVisible() || environment.elapsed() - checked < CHECK_EVERY) return;
    checked = environment.elapsed();
    await worker.check().catch(() => undefined);
  };

  const onStale = () => change({ stale: true });
  const onOnline = () => void keepRest();
  const onVisible = () => void check();
  page.addEventListener('vite:preloadError', onStale);
  page.addEventListener('online', onOnline);
  page.addEventListener('visibilitychange', onVisible);

  tabs?.addEventListener('message', (event) => {
    const message = event.data as Message;
    if ('ask' in message && busy) tabs.postMessage({ busy: message.ask } satisfies Message);
    if ('busy' in message) asked.get(message.busy)?.();
  });

  /** Whether a drill is under way in another tab. */
  const othersBusy = (): Promise<boolean> =>
    new Promise((done) => {
      if (tabs === null) return done(false);
      const question = crypto.randomUUID();
      const answer = (isBusy: boolean) => {
        clearTimeout(timer);
        asked.delete(question);
        done(isBusy);
      };
      const timer = setTimeout(() => answer(false), ASKING);
      asked.set(question, () => answer(true));
      tabs.postMessage({ ask: question } satisfies Message);
    });

  worker?.onWaiting(() => change({ waiting: true }));
  worker?.onReplaced(() => {
    // Accepted in another tab while a drill began here: the drill goes on, and the screen says what is the matter.
    if (busy) change({ waiting: false, stale: true });
    else reload();
  });
  worker?.register().then(keepRest, () => undefined);

  return {
    subscribe: (listener) => {
      listeners.add(listener);
      listener(state);
      return () => void listeners.delete(listener);
    },
    setBusy: (now) => {
      busy = now;
    },
    accept: async () => {
      if (worker === null || !state.waiting) return 'none';
      if (busy) return 'busy-here';
      if (await othersBusy()) return 'busy-elsewhere';
      // A drill may have begun here while the others were asked.
      if (busy) return 'busy-here';
      worker.takeOver();
      setTimeout(reload, PATIENCE);
      return 'reloading';
    },
    reload,
    dispose: () => {
      disposed = true;
      listeners.clear();
      page.removeEventListener('vite:preloadError', onStale);
      page.removeEventListener('online', onOnline);
      page.removeEventListener('visibilitychange', onVisible);
      tabs?.close();
    },
  };
};
