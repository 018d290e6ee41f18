import { connect, type Remote } from './remote.ts';

type Check = typeof import('../deck/check.ts')['checkText'];

/** What `checkText` takes. `today`: ISO calendar date, against which review dates are held. */
export interface CheckInput {
  readonly text: string;
  readonly today: string;
}

/** The checker in a worker: a deck is untrusted input, and a hostile one may take its time. */
export const connectChecker = (): Remote<CheckInput, ReturnType<Check>> =>
  connect(
    () => new Worker(new URL('./check.worker.ts', import.meta.url), { type: 'module', name: 'check' }),
    async () => {
      const { checkText } = await import('../deck/check.ts');
      return ({ text, today }) => checkText(text, { today });
    },
  );
