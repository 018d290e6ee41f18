import { AnswerVerdict } from '../answer/Verdict.tsx';
import type { FormUi } from '../contract.ts';
import '../forms.css';
import { ScenarioQuestion } from './Question.tsx';

export const scenarioUi = { Question: ScenarioQuestion, Verdict: AnswerVerdict } as unknown as FormUi;
