import { expect, test } from 'vitest';
import type { Session } from '../../../src/drill/types.ts';
import { studyDay } from '../../../src/log/study-day.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { isUsedUp } from '../../../src/ui/models/used-up.ts';

const learnerAt = (iso: string) =>
  ({ device: { off: () => 0 }, today: () => studyDay(Date.parse(iso), 0) }) as unknown as Learner;
const drill = (now: object) =>
  ({ course: 'real', started: Date.parse('2026-12-04T22:00:00Z'), now }) as unknown as Session;

test("the day's minutes are used up once a drill of that day ended by its time, and for its course alone", () => {
  const same = learnerAt('2026-12-04T23:00:00Z');
  const ended = drill({ kind: 'done', why: 'time' });
  expect(isUsedUp(ended, 'real', same)).toBe(true);
  expect(isUsedUp(ended, 'fictional', same)).toBe(false);
  expect(isUsedUp(drill({ kind: 'done', why: 'enough' }), 'real', same)).toBe(false);
  expect(isUsedUp(drill({ kind: 'read' }), 'real', same)).toBe(false);
  expect(isUsedUp(null, 'real', same)).toBe(false);
  expect(isUsedUp(ended, 'real', learnerAt('2026-12-05T09:00:00Z'))).toBe(false);
});
