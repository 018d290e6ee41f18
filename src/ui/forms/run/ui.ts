import type { FormUi } from '../contract.ts';
import '../forms.css';
import { RunMove } from './Move.tsx';
import { RunQuestion } from './Question.tsx';
import { UnsureSteps } from './UnsureSteps.tsx';
import { RunVerdict } from './Verdict.tsx';

export const runUi = {
  Question: RunQuestion,
  Verdict: RunVerdict,
  UnsureSteps,
  Move: RunMove,
} as unknown as FormUi;
