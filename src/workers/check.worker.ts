import { checkText } from '../deck/check.ts';
import { serve } from './remote.ts';

serve(({ text, today }: { text: string; today: string }) => checkText(text, { today }), self);
