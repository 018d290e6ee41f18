/** What reads texts from elsewhere: decks for the checker, saved copies and logs to be joined. One worker, since both read decks and lines. */
import { checkText } from '../deck/check.ts';
import type { CheckInput } from './check-client.ts';
import { type JoiningTask, join } from './joining.ts';
import { serve } from './remote.ts';

serve(
  (task: CheckInput | JoiningTask, onProgress): unknown =>
    'k' in task ? join(task, onProgress) : checkText(task.text, { today: task.today }),
  self,
);
