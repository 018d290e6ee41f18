import type { FormUi } from '../contract.ts';

export const calloutUi: FormUi = { Question: () => null, Verdict: () => null };
