import type { FormUi } from '../contract.ts';

export const pacedUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
