import type { FormId } from '../model/form.ts';
import { inTurn } from './models/in-pieces.ts';

/** Asked from the first day on: the others are loaded when one is first drawn. */
const FIRST: readonly FormId[] = ['run', 'next', 'limit', 'scenario'];

/**
 * Loads what drills, one part after the other: all of it at once, when it is started, would hold a slow phone up.
 * @throws where a part cannot be had now
 */
export const loadDrillAhead = async (): Promise<void> => {
  await inTurn();
  await import('./models/drill.ts');
  await inTurn();
  await import('./screens/Drill.tsx');
  const { formUi } = await import('./forms/registry.ts');
  for (const form of FIRST) {
    await inTurn();
    await formUi(form);
  }
};
