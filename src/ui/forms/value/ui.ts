import type { FormUi } from '../contract.ts';
import '../forms.css';
import '../answer/pick.css';
import { ValueQuestion, ValueVerdict } from './Value.tsx';

export const valueUi = { Question: ValueQuestion, Verdict: ValueVerdict } as unknown as FormUi;
