import type { FormUi } from '../contract.ts';

export const slipUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
