import type { FormUi } from '../contract.ts';

export const crewUi: FormUi = { Question: () => null, Verdict: () => null };
