import { lookBack, type PastInput } from '../drill/past.ts';
import { serve } from './remote.ts';

serve((input: PastInput) => lookBack(input), self);
