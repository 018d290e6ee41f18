import type { Session } from '../../drill/types.ts';
import { studyDay } from '../../log/study-day.ts';
import type { Course } from '../words.ts';
import type { Learner } from './learner.ts';

/** Were today's minutes of a course used to their end? @param last the drill that was last, if any */
export const isUsedUp = (last: Session | null, course: Course, { device, today }: Pick<Learner, 'device' | 'today'>) =>
  last?.now.kind === 'done' &&
  last.now.why === 'time' &&
  last.course === course &&
  studyDay(last.started, device.off(last.started)) === today();
