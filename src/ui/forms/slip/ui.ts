import type { FormUi } from '../contract.ts';
import '../forms.css';
import './slip.css';
import { SlipQuestion } from './Question.tsx';
import { SlipVerdict } from './Verdict.tsx';

export const slipUi = { Question: SlipQuestion, Verdict: SlipVerdict } as unknown as FormUi;
