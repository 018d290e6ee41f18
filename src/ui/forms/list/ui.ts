import type { FormUi } from '../contract.ts';

export const listUi: FormUi = { Question: () => null, Verdict: () => null };
