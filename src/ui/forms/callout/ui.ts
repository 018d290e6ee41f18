import type { FormUi } from '../contract.ts';
import '../forms.css';
import '../answer/pick.css';
import '../answer/words.css';
import { CalloutQuestion, CalloutVerdict } from './Callout.tsx';

export const calloutUi = { Question: CalloutQuestion, Verdict: CalloutVerdict } as unknown as FormUi;
