import type { FormUi } from '../contract.ts';

export const differenceUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
