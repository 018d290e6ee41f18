import type { FormUi } from '../contract.ts';

export const beforeUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
