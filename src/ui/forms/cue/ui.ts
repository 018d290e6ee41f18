import type { FormUi } from '../contract.ts';

export const cueUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
