import { rmSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { axe, launch, touchTargets, type Visit, visit } from '../helpers/browser.ts';
import { treeOf } from '../helpers/processes.ts';

let browser: Visit;

beforeAll(async () => {
  browser = await visit();
});
afterAll(() => browser.close());

/** A page of the app's origin, under its policy, with other content. */
const pageWith = async (html: string) => {
  const { page } = browser;
  await page.goto(`${inject('baseUrl')}robots.txt`);
  await page.evaluate((content) => {
    document.documentElement.lang = 'en';
    document.title = 'Test';
    document.body.innerHTML = content;
  }, html);
  return page;
};

describe('the helpers of the browser tests find what they are for', () => {
  test('axe finds a button without a name and a picture without words', async () => {
    const page = await pageWith('<main><h1>Test</h1><button></button><img src="icons/mark.svg"></main>');
    expect((await axe(page)).map(({ rule }) => rule).sort()).toEqual(['button-name', 'image-alt']);
    expect(await axe(await pageWith('<main><h1>Test</h1><button>Go</button></main>'))).toEqual([]);
  });

  test('touchTargets finds what is too small, and lets links in text, labels and hidden things be', async () => {
    const page = await pageWith(`
      <p>Words before <a href="#x">a link</a> and after.</p>
      <p><a id="alone" href="#x">alone</a></p>
      <button id="small">S</button><button id="large">Large</button>
      <label id="label"><input id="box" type="checkbox"> Words</label>
      <input id="bare" type="checkbox">
      <div id="role" role="button" tabindex="0">x</div>
      <button id="gone" hidden>h</button>`);
    await page.evaluate(() => {
      const size = (id: string, width: string, height: string) => {
        const element = document.getElementById(id);
        if (element) Object.assign(element.style, { display: 'inline-block', width, height, boxSizing: 'border-box' });
      };
      size('large', '44px', '44px');
      size('small', '60px', '43px');
      size('label', '200px', '48px');
      size('role', '44px', '20px');
    });
    const found = (await touchTargets(page)).map(({ element }) => element.split(' ')[0]);
    expect(found.sort()).toEqual(['a#alone', 'button#small', 'div#role', 'input#bare']);
  });

  test('the clock is moved, goes on from there, and stays moved after a load', async () => {
    const own = await visit();
    const now = () => own.page.evaluate(() => new Date().toISOString());
    await own.setClock('2031-03-30T01:00:00Z');
    await own.page.goto(`${inject('baseUrl')}robots.txt`);
    expect(await now()).toMatch(/^2031-03-30T01:00:/);
    const before = await own.page.evaluate(() => Date.now());
    await expect.poll(() => own.page.evaluate(() => Date.now())).toBeGreaterThan(before);
    expect(await own.page.evaluate(() => new Promise((done) => setTimeout(() => done('rang'), 20)))).toBe('rang');
    await own.setClock('2031-03-31T01:00:00Z');
    expect(await now()).toMatch(/^2031-03-31T01:00:/);
    await own.page.reload();
    expect(await now()).toMatch(/^2031-03-31T01:00:/);
    await own.close();
  });

  test('killHard ends every process at once; the profile can be started again', async () => {
    const first = await launch();
    await first.page.goto(`${inject('baseUrl')}robots.txt`);
    await first.page.evaluate(() => localStorage.setItem('kept', 'yes'));
    await first.page.evaluate(
      () =>
        new Promise((done, failed) => {
          const request = indexedDB.open('kept', 1);
          request.onupgradeneeded = () => request.result.createObjectStore('rows');
          request.onerror = failed;
          request.onsuccess = () => {
            const transaction = request.result.transaction('rows', 'readwrite', { durability: 'strict' });
            transaction.objectStore('rows').put('written', 1);
            transaction.oncomplete = done;
          };
        }),
    );
    expect(treeOf(first.userDataDir).length).toBeGreaterThan(2);
    await first.killHard();
    expect(treeOf(first.userDataDir)).toEqual([]);

    const second = await launch({ userDataDir: first.userDataDir });
    await second.page.goto(`${inject('baseUrl')}robots.txt`);
    const row = await second.page.evaluate(
      () =>
        new Promise((done, failed) => {
          const request = indexedDB.open('kept', 1);
          request.onerror = failed;
          request.onsuccess = () => {
            const get = request.result.transaction('rows').objectStore('rows').get(1);
            get.onsuccess = () => done(get.result);
            get.onerror = failed;
          };
        }),
    );
    expect(row).toBe('written');
    await second.close();
    rmSync(first.userDataDir, { recursive: true, force: true });
  });

  test('goOffline and goOnline', async () => {
    const page = await pageWith('');
    const reach = () => page.evaluate(() => fetch('robots.txt', { cache: 'no-store' }).then((a) => a.status, String));
    await browser.goOffline();
    expect(await reach()).toContain('TypeError');
    await browser.goOnline();
    expect(await reach()).toBe(200);
  });

  test('errors of scripts are kept', async () => {
    const page = await pageWith('');
    await page.evaluate(() => setTimeout(() => Promise.reject(new Error('lost promise')), 0));
    await expect.poll(() => browser.errors.join()).toContain('lost promise');
  });
});
