/** In a page: how long after a change of a draft the first and all findings are there, ms. */
import { connectWorkshop } from '../src/workers/workshop-client.ts';

export interface Times {
  readonly first: number;
  readonly all: number;
}

const workshop = connectWorkshop(() => new Worker('./workshop.js'));

/** From the changed value in the page's hands: making the text of it is part of the wait. */
const check = async (value: unknown): Promise<Times> => {
  const from = performance.now();
  let [first, all] = [Number.NaN, Number.NaN];
  await workshop.check(JSON.stringify(value), '2026-11-25', () => {
    all = performance.now() - from;
    if (Number.isNaN(first)) first = all;
  });
  return { first, all };
};

Object.assign(globalThis, { check });
