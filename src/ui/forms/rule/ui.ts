import type { FormUi } from '../contract.ts';

export const ruleUi: FormUi = { Question: () => null, Verdict: () => null };
