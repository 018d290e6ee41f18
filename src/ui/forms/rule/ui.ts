import type { FormUi } from '../contract.ts';

export const ruleUi = { Question: () => null, Verdict: () => null } as unknown as FormUi;
