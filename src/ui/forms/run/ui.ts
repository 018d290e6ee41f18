import type { FormUi } from '../contract.ts';
import '../forms.css';
import { RunQuestion } from './Question.tsx';
import { UnsureSteps } from './UnsureSteps.tsx';
import { RunVerdict } from './Verdict.tsx';

export const runUi = { Question: RunQuestion, Verdict: RunVerdict, UnsureSteps } as unknown as FormUi;
