import type { FormUi } from '../contract.ts';
import '../forms.css';
import { CrewQuestion, CrewVerdict, UnsureRows } from './Crew.tsx';
import './deal.css';

export const crewUi = { Question: CrewQuestion, Verdict: CrewVerdict, UnsureSteps: UnsureRows } as unknown as FormUi;
