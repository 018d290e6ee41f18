import type { FormUi } from '../contract.ts';

export const slipUi: FormUi = { Question: () => null, Verdict: () => null };
