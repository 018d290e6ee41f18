import type { FormUi } from '../contract.ts';
import '../forms.css';
import '../answer/pick.css';
import { CueQuestion, CueVerdict } from './Cue.tsx';

export const cueUi = { Question: CueQuestion, Verdict: CueVerdict } as unknown as FormUi;
