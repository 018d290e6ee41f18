import type { FormUi } from '../contract.ts';

export const differenceUi: FormUi = { Question: () => null, Verdict: () => null };
