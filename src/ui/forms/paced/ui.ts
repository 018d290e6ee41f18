import type { FormUi } from '../contract.ts';
import '../forms.css';
import { PacedQuestion } from './PacedQuestion.tsx';
import { PacedVerdict } from './PacedVerdict.tsx';
import './paced.css';

export const pacedUi = { Question: PacedQuestion, Verdict: PacedVerdict } as unknown as FormUi;
