import { afterEach, expect, test, vi } from 'vitest';
import { contentId } from '../../../src/exchange/content-id.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Checked, Device } from '../../../src/ui/device.ts';
import { accept, incoming, stopChecking, takeDemo, takeFile, takeText } from '../../../src/ui/models/install.ts';
import { benchOf, LIMITS } from './learners.ts';

const NEXT: Deck = { ...LIMITS, version: '1.1.0' };
const good: Checked = { deck: NEXT, findings: [] };

/** A checker whose answers come when the test says so, in whatever order. */
const checker = () => {
  const asked: { answer: (checked: Checked) => void; readonly stop: AbortSignal; readonly text: string }[] = [];
  const check: Device['check'] = (text, _, stop) =>
    new Promise((answer, failed) => {
      stop.addEventListener('abort', () => failed(stop.reason));
      asked.push({ answer, stop, text });
    });
  return { asked, more: { check, contentId: async () => 'd'.repeat(64) } };
};
const step = () => incoming.value.step;
const settled = () => new Promise((done) => setTimeout(done));

afterEach(stopChecking);

test('a check that is given up ends the worker, and changes nothing', async () => {
  const { asked, more } = checker();
  const { learner } = await benchOf(LIMITS, more);
  const before = learner.decks.value;
  const done = takeText(learner, 'hostile', 'big.json');
  expect(incoming.value).toEqual({ step: 'checking', name: 'big.json' });
  stopChecking();
  expect(asked[0]?.stop.aborted).toBe(true);
  await done;
  expect(step()).toBe('none');
  expect(learner.decks.value).toBe(before);
  expect(await accept(learner)).toBeNull();
});

test('an answer that comes after all, from a check on this thread, is passed over', async () => {
  let answer: (checked: Checked) => void = () => undefined;
  const check: Device['check'] = () =>
    new Promise((done) => {
      answer = done;
    });
  const { learner } = await benchOf(LIMITS, { check, contentId: async () => 'd'.repeat(64) });
  const done = takeText(learner, 'slow', 'slow.json');
  stopChecking();
  answer(good);
  await done;
  expect(step()).toBe('none');
});

test('a deck that comes while another is checked takes its place', async () => {
  const { asked, more } = checker();
  const { learner } = await benchOf(LIMITS, more);
  const first = takeText(learner, 'first', 'first.json');
  const second = takeFile(learner, new File([JSON.stringify(NEXT)], 'second.json'));
  await settled();
  expect(asked.map(({ stop }) => stop.aborted)).toEqual([true, false]);
  asked[1]?.answer(good);
  await Promise.all([first, second]);
  expect(incoming.value).toMatchObject({
    step: 'ask',
    name: 'second.json',
    text: JSON.stringify(NEXT),
    older: false,
    same: false,
  });
  await accept(learner);
  expect(learner.decks.value.filter(({ active }) => active).map(({ version }) => version)).toEqual(['1.1.0']);
});

test('one that was stopped while it was still loaded is not checked at all', async () => {
  const { asked, more } = checker();
  let loaded: (text: string) => void = () => undefined;
  const demoText = () =>
    new Promise<string>((done) => {
      loaded = done;
    });
  const { learner } = await benchOf(LIMITS, { ...more, demoText });
  const done = takeDemo(learner, { file: 'x', id: 'x', version: '1', title: 'Demo', contentId: '' });
  stopChecking();
  loaded('text');
  await done;
  expect([step(), asked.length]).toEqual(['none', 0]);
});

test('a deck that came with the app was checked when it was built; any other text under its name is checked', async () => {
  const { asked, more } = checker();
  const text = JSON.stringify(NEXT);
  let loaded = text;
  const { learner } = await benchOf(LIMITS, { ...more, contentId, demoText: async () => loaded });
  const demo = { file: 'x', id: NEXT.id, version: '1.1.0', title: 'Demo', contentId: await contentId(text) };
  await takeDemo(learner, demo);
  expect(incoming.value).toMatchObject({ step: 'ask', deck: NEXT, contentId: demo.contentId, findings: [] });
  expect(asked).toEqual([]);
  for (loaded of ['no JSON', JSON.stringify({ ...NEXT, title: 'Another' })]) {
    void takeDemo(learner, demo);
    await vi.waitFor(() => expect(asked.map((one) => one.text)).toContain(loaded));
  }
});

test('a fault of the checker itself is said', async () => {
  const check = () => Promise.reject(new Error('It broke.'));
  const { learner } = await benchOf(LIMITS, { check });
  await takeText(learner, 'x', 'x.json');
  expect(incoming.value).toEqual({ step: 'failed', name: 'x.json', why: 'It broke.' });
});
