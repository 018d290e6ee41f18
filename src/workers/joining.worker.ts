import { type JoiningTask, join } from './joining.ts';
import { serve } from './remote.ts';

serve((task: JoiningTask, onProgress) => join(task, onProgress), self);
