import type { FormUi } from '../contract.ts';
import '../forms.css';
import '../answer/pick.css';
import { BeforeQuestion, BeforeVerdict } from './Before.tsx';

export const beforeUi = { Question: BeforeQuestion, Verdict: BeforeVerdict } as unknown as FormUi;
