import type { FormUi } from '../contract.ts';
import '../forms.css';
import { NextQuestion } from './Question.tsx';
import { NextVerdict } from './Verdict.tsx';

export const nextUi = { Question: NextQuestion, Verdict: NextVerdict } as unknown as FormUi;
