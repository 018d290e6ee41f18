import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';
import { chromiumOptions } from './chromium.ts';
import { treeOf } from './processes.ts';

/** A device with storage of its own. */
export interface Visit {
  readonly context: BrowserContext;
  /** The first tab. */
  readonly page: Page;
  /** Messages of scripts that threw and of errors written to the console, in all tabs. */
  readonly errors: string[];
  /** All tabs and service workers lose the network. */
  goOffline(): Promise<void>;
  goOnline(): Promise<void>;
  /**
   * Moves the clock of all pages, now and after every load; from there it goes on at its usual pace. Workers keep the
   * machine's time.
   */
  setClock(at: Date | string | number): Promise<void>;
  close(): Promise<void>;
}

/** A device whose browser can be ended. */
export interface Launched extends Visit {
  readonly userDataDir: string;
  /** SIGKILL to every process of the browser, as when a phone ends it. The profile stays; launch it again. */
  killHard(): Promise<void>;
  /** Ends the browser; removes the profile unless it is to be kept or was given. */
  close(keep?: 'keep'): Promise<void>;
}

/** A phone with touch. */
const PHONE = {
  viewport: { width: 360, height: 740 },
  deviceScaleFactor: 2,
  hasTouch: true,
  isMobile: true,
  colorScheme: 'light',
  timezoneId: 'UTC',
  locale: 'en-GB',
} as const;

/** Long enough for a machine that does much else; what is there sooner is taken sooner. Milliseconds. */
const PATIENCE = 20_000;

const visiting = async (context: BrowserContext): Promise<Visit> => {
  context.setDefaultTimeout(PATIENCE);
  const errors: string[] = [];
  context.on('weberror', (error) => errors.push(error.error().message));
  context.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return {
    context,
    page: context.pages()[0] ?? (await context.newPage()),
    errors,
    goOffline: () => context.setOffline(true),
    goOnline: () => context.setOffline(false),
    setClock: (at) => context.clock.setSystemTime(at),
    close: () => context.close(),
  };
};

let shared: Promise<Browser> | undefined;

/**
 * A fresh device in the one Chromium that all tests share, its storage in memory: a start takes a fraction of what
 * `launch` takes.
 * @param options without service workers where nothing of them is tried: each keeps the whole app for itself
 */
export const visit = async (options: Pick<BrowserContextOptions, 'serviceWorkers'> = {}): Promise<Visit> => {
  shared ??= chromium.connect(inject('browser'));
  return visiting(await (await shared).newContext({ ...PHONE, ...options }));
};

/**
 * A Chromium of its own with a profile on the disk: for what must outlive the browser, and for installing, which a
 * window without a profile cannot.
 * @param userDataDir a profile to start again from; a fresh one otherwise
 */
export const launch = async ({ userDataDir: given }: { readonly userDataDir?: string } = {}): Promise<Launched> => {
  const userDataDir = given ?? mkdtempSync(join(tmpdir(), 'recency-profile-'));
  const context = await chromium.launchPersistentContext(userDataDir, { ...chromiumOptions, ...PHONE });
  return {
    ...(await visiting(context)),
    userDataDir,
    killHard: async () => {
      const closed = new Promise<void>((done) => context.once('close', () => done()));
      // One that was just being born, or that the system still has to bury, is met in the next round.
      for (let pids = treeOf(userDataDir); pids.length > 0; pids = treeOf(userDataDir)) {
        for (const pid of pids) {
          try {
            process.kill(pid, 'SIGKILL');
          } catch {
            // Went with its parent.
          }
        }
        await new Promise((done) => setTimeout(done, 20));
      }
      await closed;
    },
    close: async (keep) => {
      await context.close();
      if (keep === undefined && given === undefined) rmSync(userDataDir, { recursive: true, force: true });
    },
  };
};

/** Waits until the page runs under its service worker and everything is kept for offline use. */
export const offlineReady = async (page: Page): Promise<void> => {
  const kept = await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    if (navigator.serviceWorker.controller === null) {
      await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
    }
    const channel = new MessageChannel();
    const answer = new Promise((done) => {
      channel.port1.onmessage = (event) => done(event.data);
    });
    registration.active?.postMessage({ type: 'KEEP_REST' }, [channel.port2]);
    return answer;
  });
  if (kept !== true) throw new Error('the service worker could not keep the rest of the app');
};

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export interface AxeFinding {
  readonly rule: string;
  readonly help: string;
  /** CSS paths. */
  readonly at: readonly string[];
}

/**
 * Accessibility violations by axe-core: WCAG 2.2 A and AA and its best practices. The debugger protocol puts the
 * script in, which the page's policy does not forbid.
 * @param only one rule alone, where all others were tried on the same screen
 */
export const axe = async (page: Page, only?: 'color-contrast'): Promise<AxeFinding[]> => {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axeSource);
  return page.evaluate(async (rule) => {
    const { axe: run } = window as unknown as { axe: typeof import('axe-core') };
    const { violations } = await run.run(document, {
      preload: false,
      resultTypes: ['violations'],
      ...(rule === undefined ? {} : { runOnly: [rule] }),
    });
    return violations.map(({ id, help, nodes }) => ({
      rule: id,
      help,
      at: nodes.map((node) => node.target.join(' ')),
    }));
  }, only);
};

export interface SmallTarget {
  readonly element: string;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
}

/**
 * Everything on the page that can be tapped and is smaller than 44 × 44 CSS pixels (WCAG 2.2, 2.5.5 Target Size
 * (Enhanced)); links within a line of text are excepted, as there. A box or radio button counts with its label.
 */
export const touchTargets = (page: Page): Promise<SmallTarget[]> =>
  page.evaluate(() => {
    const least = 44;
    const roles = [
      'button',
      'link',
      'checkbox',
      'radio',
      'switch',
      'tab',
      'menuitem',
      'option',
      'slider',
      'spinbutton',
    ];
    const selector = [
      'a[href]',
      'button',
      'input:not([type=hidden])',
      'select',
      'textarea',
      'summary',
      '[tabindex]:not([tabindex="-1"])',
      ...roles.map((role) => `[role=${role}]`),
    ].join(',');
    const inText = (element: Element) => {
      if (element.tagName !== 'A' || getComputedStyle(element).display !== 'inline') return false;
      const around = element.parentElement?.textContent?.trim() ?? '';
      return around.length > (element.textContent ?? '').trim().length;
    };
    const labelled = (element: Element): Element => {
      const ticked = element instanceof HTMLInputElement && ['checkbox', 'radio', 'file'].includes(element.type);
      return (ticked && element.labels?.[0]) || element;
    };
    return (
      [...document.querySelectorAll(selector)]
        .filter((element) => element.checkVisibility({ opacityProperty: true, visibilityProperty: true }))
        .filter((element) => !element.closest('[inert]') && !inText(element))
        .map((element) => ({ element, box: labelled(element).getBoundingClientRect() }))
        // Shown to screen readers alone.
        .filter(({ box }) => box.width > 1 || box.height > 1)
        // Half a pixel of rounding at other scale factors.
        .filter(({ box }) => box.width < least - 0.5 || box.height < least - 0.5)
        .map(({ element, box }) => ({
          element: `${element.tagName.toLowerCase()}${element.id === '' ? '' : `#${element.id}`} "${(element.textContent ?? '').trim().slice(0, 40)}"`,
          width: Math.round(box.width * 10) / 10,
          height: Math.round(box.height * 10) / 10,
        }))
    );
  });
