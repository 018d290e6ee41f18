/** A page with nothing but the update port, put on `window` for the tests of the update flow. */
import { createUpdates, type UpdateState } from '../../src/app/update.ts';

const updates = createUpdates();
const states: UpdateState[] = [];
updates.subscribe((state) => states.push(state));
Object.assign(window, { updates, states });
