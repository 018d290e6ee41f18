import type { Difference } from './types.ts';

const rank = ({ critical, because }: Difference): number => (because !== undefined ? 2 : critical ? 0 : 1);

/** What is critical first, what changed only because of something beside it last; else as they were. */
export const weightiestFirst = (differences: readonly Difference[]): Difference[] =>
  differences
    .map((one, i) => ({ one, i }))
    .sort((a, b) => rank(a.one) - rank(b.one) || a.i - b.i)
    .map(({ one }) => one);
