import type { FormUi } from '../contract.ts';
import '../forms.css';
import '../answer/pick.css';
import '../answer/words.css';
import { ListQuestion, ListVerdict } from './List.tsx';

export const listUi = { Question: ListQuestion, Verdict: ListVerdict } as unknown as FormUi;
