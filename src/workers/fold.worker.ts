import { type FoldInput, foldLines } from './fold.ts';
import { serve } from './remote.ts';

serve((input: FoldInput) => foldLines(input), self);
