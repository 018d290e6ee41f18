import { fitLines } from './fit.ts';
import type { LogInput } from './log-input.ts';
import { serve } from './remote.ts';

serve((input: LogInput) => fitLines(input), self);
