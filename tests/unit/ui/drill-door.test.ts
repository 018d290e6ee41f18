import { expect, test } from 'vitest';
import type { Session } from '../../../src/drill/types.ts';
import { studyDay } from '../../../src/log/study-day.ts';
import { createDrillDoor } from '../../../src/ui/models/drill-door.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';

const STARTED = Date.parse('2026-12-04T22:00:00Z');
const kept = { v: 1, id: 'a', course: 'real', started: STARTED, seconds: 600, used: 300, now: { kind: 'read' } };
const doorAt = (iso: string, session: object = kept) => {
  const now = Date.parse(iso);
  return createDrillDoor({
    store: { drill: { get: async () => session } },
    device: { off: () => 0 },
    today: () => studyDay(now, 0),
  } as unknown as Learner);
};

test.each(['2026-12-04T23:00:00Z', '2026-12-05T02:00:00Z'])(
  'a drill of the same study day goes on: %s',
  async (now) => {
    const door = await doorAt(now);
    expect(door.underWay.value).toEqual(kept);
  },
);

test.each(['2026-12-05T09:00:00Z', '2026-12-11T08:00:00Z'])('one of another day is over: %s', async (now) => {
  const door = await doorAt(now);
  expect(door.underWay.value).toBeNull();
  // What was answered in it can still be looked at.
  expect(door.session.value).toMatchObject({
    id: 'a',
    used: 300,
    now: { kind: 'done' } satisfies Partial<Session['now']>,
  });
});
