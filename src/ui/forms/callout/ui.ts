import type { FormUi } from '../contract.ts';

export const calloutUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
