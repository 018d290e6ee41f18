/** In a worker of the browser: one plan, and how long it took in ms, the compiling of the code included. */
import { solvePlan } from '../src/memory/plan/solve.ts';
import type { PlanInput } from '../src/memory/plan/types.ts';

const worker = globalThis as unknown as {
  onmessage: ((event: { data: PlanInput }) => void) | null;
  postMessage(ms: number): void;
};

worker.onmessage = ({ data }) => {
  const from = performance.now();
  solvePlan(data);
  worker.postMessage(performance.now() - from);
};
