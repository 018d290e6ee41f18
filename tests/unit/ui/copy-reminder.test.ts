import { expect, test } from 'vitest';
import { copyReminder, remindLater } from '../../../src/ui/models/copies.ts';

const DAY = 86_400_000;
type Asked = Parameters<typeof copyReminder>[0];

const phone = (entries: number) => {
  const kept = new Map<string, unknown>();
  const at = { now: Date.parse('2026-11-27T10:00:00Z'), entries, persisted: false };
  const learner = {
    device: { now: () => at.now },
    store: {
      log: { count: async () => at.entries },
      device: {
        get: async (key: string) => kept.get(key),
        put: async (key: string, value: unknown) => void kept.set(key, value),
      },
      persisted: async () => at.persisted,
      journal: async () => 'opfs',
    },
  } as unknown as Asked;
  return { at, kept, learner };
};

test('a copy is asked for from 50 entries on, from 200 where the browser keeps them for good', async () => {
  const { at, learner } = phone(49);
  expect(await copyReminder(learner)).toBeNull();
  at.entries = 50;
  expect(await copyReminder(learner)).toBe('50 entries are on this device alone.');
  at.persisted = true;
  expect(await copyReminder(learner)).toBeNull();
  at.entries = 200;
  expect(await copyReminder(learner)).toContain('200 entries');
});

test('after a copy a week passes, and as many entries', async () => {
  const { at, kept, learner } = phone(130);
  kept.set('copied', { at: at.now, entries: 60 });
  at.now += 6 * DAY;
  expect(await copyReminder(learner)).toBeNull();
  at.now += DAY;
  expect(await copyReminder(learner)).toBe('70 entries since you last saved a copy.');
});

test('put off it comes back in a week, and at once where the clock was set back', async () => {
  const { at, learner } = phone(60);
  await remindLater(learner);
  expect(await copyReminder(learner)).toBeNull();
  at.now += 7 * DAY - 1;
  expect(await copyReminder(learner)).toBeNull();
  at.now += 1;
  expect(await copyReminder(learner)).toContain('60 entries');
  await remindLater(learner);
  at.now -= 30 * DAY;
  expect(await copyReminder(learner)).toContain('60 entries');
});
