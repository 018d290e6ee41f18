import { type PlanTask, workOut } from './plan.ts';
import { serve } from './remote.ts';

serve((task: PlanTask, onProgress) => workOut(task, onProgress), self);
