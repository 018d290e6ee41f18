import { AnswerVerdict } from '../answer/Verdict.tsx';
import type { FormUi } from '../contract.ts';
import '../forms.css';
import { LimitQuestion } from './Question.tsx';

export const limitUi = { Question: LimitQuestion, Verdict: AnswerVerdict } as unknown as FormUi;
