import type { FormUi } from '../contract.ts';
import '../forms.css';
import '../crew/deal.css';
import { DifferenceQuestion, DifferenceVerdict } from './Difference.tsx';

export const differenceUi = { Question: DifferenceQuestion, Verdict: DifferenceVerdict } as unknown as FormUi;
