import type { FormUi } from '../contract.ts';

export const listUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
