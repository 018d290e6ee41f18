import type { FormId } from '../model/form.ts';
import { inTurn } from './models/in-pieces.ts';

/** Exhaustive: a new form id without a line here does not compile. */
const FORMS: Readonly<Record<FormId, true>> = { run: true, next: true, limit: true, scenario: true };

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
  for (const form of Object.keys(FORMS) as FormId[]) {
    await inTurn();
    await formUi(form);
  }
};
