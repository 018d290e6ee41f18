import type { FormUi } from '../contract.ts';
import '../forms.css';
import '../answer/pick.css';
import { RuleQuestion, RuleVerdict } from './Rule.tsx';

export const ruleUi = { Question: RuleQuestion, Verdict: RuleVerdict } as unknown as FormUi;
