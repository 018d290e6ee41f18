import type { FormUi } from '../contract.ts';

export const crewUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
