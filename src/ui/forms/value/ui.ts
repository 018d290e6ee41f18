import type { FormUi } from '../contract.ts';

export const valueUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
