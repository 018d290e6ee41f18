/**
 * Fills forms as a hand would, by what each box says of itself: `data-path` (a box for a value), `data-add` (a button
 * that makes one), `data-key` (the name of a member), `data-kind` (how something is written). Knows no form. This runs
 * in the page; `lineHand`, at the end, presses from a test.
 */
import type { Locator, Page } from 'playwright-core';

type Value = null | boolean | number | string | readonly Value[] | { readonly [key: string]: Value };
type Box = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

const isObject = (value: Value): value is { readonly [key: string]: Value } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const below = (path: string, key: string | number): string =>
  `${path}/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`;

/** Until what was done is drawn: behind all that is waiting now, sooner than a timer would. */
const drawn = (): Promise<void> =>
  new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(null);
  });

const all = <T extends Element>(name: string, path: string): T[] => [
  ...document.querySelectorAll<T>(`[${name}="${CSS.escape(path)}"]`),
];
const first = <T extends Element>(name: string, path: string): T | undefined => all<T>(name, path)[0];
const anyBelow = (path: string): boolean =>
  ['path', 'key', 'add', 'kind'].some(
    (name) => document.querySelector(`[data-${name}^="${CSS.escape(path)}/"]`) !== null,
  );

let operations = 0;
const write = async (box: Box, text: string): Promise<void> => {
  operations += 1;
  box.dispatchEvent(new FocusEvent('focus'));
  Object.getOwnPropertyDescriptor(box.constructor.prototype, 'value')?.set?.call(box, text);
  box.dispatchEvent(new InputEvent('input', { bubbles: true }));
  box.dispatchEvent(new Event('change', { bubbles: true }));
  box.dispatchEvent(new FocusEvent('blur'));
  await drawn();
};
const press = async (element: HTMLElement): Promise<void> => {
  operations += 1;
  element.click();
  await drawn();
};

/** What could not be written, and where: tried again when all else is there. */
export type Left = string[];

const fillText = async (path: string, value: string | number | boolean, left: Left): Promise<void> => {
  const boxes = all<Box>('data-path', path);
  const box = boxes[0];
  if (box === undefined) {
    left.push(`${path}: no box`);
    return;
  }
  if (box instanceof HTMLInputElement && box.type === 'checkbox') {
    const one = typeof value === 'boolean' ? box : boxes.find((tick) => tick.value === value);
    if (!(one instanceof HTMLInputElement)) left.push(`${path}: nothing to tick for ${value}`);
    else if (!one.checked) await press(one);
    return;
  }
  const parts = boxes.filter(({ dataset }) => dataset.part !== undefined);
  if (parts.length > 0) {
    const [id = '', ...place] = String(value).split('#');
    for (const part of parts) await choose(part, part.dataset.part === 'id' ? id : place.join('#'), left, path);
    return;
  }
  await choose(box, String(value), left, path);
};

const choose = async (box: Box, text: string, left: Left, path: string): Promise<void> => {
  if (box instanceof HTMLSelectElement && ![...box.options].some(({ value }) => value === text)) {
    left.push(`${path}: no choice ${text}`);
    return;
  }
  if (box.value !== text) await write(box, text);
};

const fillList = async (path: string, list: readonly Value[], left: Left): Promise<void> => {
  const ticks = all<HTMLInputElement>('data-path', path).filter(({ type }) => type === 'checkbox');
  if (ticks.length > 0) {
    for (const one of list) await fillText(path, one as string, left);
    return;
  }
  for (const [i, one] of list.entries()) {
    const there = () => first('data-path', `${path}/${i}`) !== undefined || anyBelow(`${path}/${i}`);
    if (!there()) {
      const add = first<HTMLElement>('data-add', path);
      if (add === undefined) {
        left.push(`${path}: nothing to add with`);
        return;
      }
      await press(add);
    }
    await fill(`${path}/${i}`, one, left);
  }
};

/** How many of the members have a box or a button? */
const offered = (path: string, value: { readonly [key: string]: Value }): number =>
  Object.keys(value).filter((key) => {
    const place = below(path, key);
    // Numbered boxes are a list.
    if (isObject(value[key] ?? null) && first('data-path', `${place}/0`) !== undefined) return false;
    return first('data-path', place) !== undefined || first('data-add', place) !== undefined || anyBelow(place);
  }).length;

const chooseKind = async (path: string, value: { readonly [key: string]: Value }): Promise<void> => {
  const kinds = () => [
    ...document.querySelectorAll<HTMLInputElement>(`fieldset[data-kind="${CSS.escape(path)}"] input`),
  ];
  let best = -1;
  let most = -1;
  const now = kinds().findIndex(({ checked }) => checked);
  const total = Object.keys(value).length;
  for (const i of [now, ...kinds().keys()]) {
    const radio = kinds()[i];
    if (radio === undefined) return;
    if (!radio.checked) await press(radio);
    const n = offered(path, value);
    if (n > most) [best, most] = [i, n];
    if (n === total) return;
  }
  const radio = kinds()[best];
  if (radio !== undefined && !radio.checked) await press(radio);
};

const keysAt = (path: string): HTMLInputElement[] =>
  [...document.querySelectorAll<HTMLInputElement>(`[data-key^="${CSS.escape(path)}/"]`)].filter(
    ({ dataset }) => dataset.key?.lastIndexOf('/') === path.length,
  );

const fillRecord = async (path: string, value: { readonly [key: string]: Value }, left: Left): Promise<void> => {
  for (const [i, [key, one]] of Object.entries(value).entries()) {
    if (keysAt(path)[i] === undefined) {
      const add = first<HTMLElement>('data-add', path);
      if (add !== undefined) await press(add);
    }
    const box = keysAt(path)[i];
    if (box === undefined) {
      left.push(`${path}: no place for ${key}`);
      return;
    }
    if (box.value !== key) await write(box, key);
    await fill(below(path, key), one, left);
  }
};

const fillObject = async (path: string, value: { readonly [key: string]: Value }, left: Left): Promise<void> => {
  const there = () => anyBelow(path) || all('data-kind', path).length > 0;
  if (!there()) {
    const add = first<HTMLElement>('data-add', path);
    if (add !== undefined) await press(add);
  }
  // Words alone, until there is a reason beside them.
  if (first('data-path', path) !== undefined && typeof value.text === 'string') await fill(path, value.text, left);
  if (keysAt(path).length > 0 || (!anyBelow(path) && first('data-add', path) !== undefined))
    return fillRecord(path, value, left);
  const toggle = all<HTMLInputElement>('data-kind', path).find((one) => one.type === 'checkbox');
  if (toggle !== undefined && !toggle.checked && ('not' in value || 'plus' in value)) await press(toggle);
  await chooseKind(path, value);
  // What decides on other fields comes first: they are tried twice.
  for (let round = 0; round < 2; round++) {
    const missed: Left = [];
    for (const [key, one] of Object.entries(value)) await fill(below(path, key), one, missed);
    if (missed.length === 0) return;
    if (round === 1) left.push(...missed);
  }
};

const fill = async (path: string, value: Value, left: Left): Promise<void> => {
  if (Array.isArray(value)) await fillList(path, value, left);
  else if (isObject(value)) await fillObject(path, value, left);
  else if (value !== null) await fillText(path, value as string, left);
};

/** Boxes that hold what the value has not are emptied. */
const clear = async (path: string, value: { readonly [key: string]: Value }): Promise<void> => {
  for (const box of document.querySelectorAll<Box>(`[data-path^="${CSS.escape(path)}/"]`)) {
    const key = box.dataset.path?.slice(path.length + 1) ?? '';
    if (key.includes('/') || key in value || box.value === '' || box.type === 'checkbox') continue;
    await write(box, '');
  }
};

/** @returns what could not be written, and how many times something was typed, chosen or pressed */
export const fillForm = async (path: string, value: Value): Promise<{ left: Left; operations: number }> => {
  const left: Left = [];
  operations = 0;
  await fill(path, value, left);
  if (isObject(value)) await clear(path, value);
  return { left, operations };
};

/** A step or block of a procedure, as far as its place in the line goes. */
export interface LineNode {
  readonly id?: string;
  readonly do?: string;
  readonly say?: string;
  readonly if?: string;
  readonly together?: boolean;
  readonly use?: string;
  readonly steps?: readonly LineNode[];
  readonly lanes?: readonly (readonly LineNode[])[];
}

export interface LineHand {
  click(one: Locator): Promise<void>;
  /**
   * Makes the nodes of a list, one after the other.
   * @param list pointer
   * @param there so many empty steps stand in the list already
   */
  fill(list: string, nodes: readonly LineNode[], there?: number): Promise<void>;
}

/**
 * Makes the line of a procedure by pressing what its page offers.
 * @param write writes what a step says into its form, which is open
 */
export const lineHand = (page: Page, write: (path: string, step: LineNode) => Promise<void>): LineHand => {
  const at = (path: string): Locator => page.locator(`[data-step="${path}"]`);
  const field = (path: string): Locator => page.locator(`[data-path="${path}"]`).first();
  const button = (name: string): Locator =>
    page.getByRole('button', { name, exact: true }).and(page.locator(':visible'));
  /** What the checker says comes and goes under the fields meanwhile, so that a place on the screen is no address. */
  const click = (one: Locator): Promise<void> =>
    one.evaluate(async (element) => {
      (element as HTMLElement).click();
      // What comes of it is drawn, and has the cursor.
      for (let i = 0; i < 3; i++) await new Promise((done) => requestAnimationFrame(done));
    });
  const opened = async (path: string): Promise<void> => {
    if ((await at(path).getAttribute('aria-expanded')) === 'false') await click(at(path));
  };

  /** Makes the empty step at a place into what is wanted. */
  const make = async (path: string, node: LineNode): Promise<void> => {
    await opened(path);
    if (node.use !== undefined) {
      await page.getByLabel('A block of another procedure').selectOption(node.use);
      await click(button('Take it behind what is open'));
      await click(at(path));
      await click(button('Remove'));
    } else if (node.lanes !== undefined) {
      await click(button('Step after'));
      await opened(path);
      await click(page.getByText('With its neighbours …'));
      await click(button('One more'));
      await click(button('May be done in any order'));
      for (const _ of node.lanes.slice(2)) await click(page.locator(`[data-add="${path}/lanes"]`));
      for (const [i, lane] of node.lanes.entries()) await fill(`${path}/lanes/${i}`, lane, 1);
    } else if (node.steps !== undefined) {
      await click(page.getByText('With its neighbours …'));
      await click(button('A block of it'));
      if (node.if !== undefined) {
        await page.locator('[data-tool="only-if"]').selectOption('As a formula');
        await field(`${path}/if`).fill(node.if);
      }
      if (node.together === true) await field(`${path}/together`).check();
      if (node.id !== undefined) await click(button('Name it for other procedures'));
      await fill(`${path}/steps`, node.steps, 1);
    } else {
      await write(path, node);
    }
  };

  const fill: LineHand['fill'] = async (list, nodes, there = 0) => {
    for (const [i, node] of nodes.entries()) {
      if (i >= there) await click(page.locator(`[data-add="${list}"]`));
      await make(`${list}/${i}`, node);
    }
  };
  return { click, fill };
};
