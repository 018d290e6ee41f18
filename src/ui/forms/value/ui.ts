import type { FormUi } from '../contract.ts';

export const valueUi: FormUi = { Question: () => null, Verdict: () => null };
