/** Ways by which a deck comes to the app on its own: all lead to the screen that asks whether to take it. */
import type { Learner } from './models/learner.ts';
import { go, route } from './route.ts';

const model = () => import('./models/install.ts');

/** @param from address that it was fetched from, null where another app or file had it */
export const openIncoming = (
  learner: Learner,
  { name, from, text }: { readonly name: string; readonly from: string | null; readonly text: string },
): void => {
  go({ at: 'install' }, 'instead');
  void model().then(({ takeText }) => takeText(learner, text, name, from));
};

export const openFile = (learner: Learner, file: File): void => {
  go({ at: 'install' });
  void model().then(({ takeFile }) => takeFile(learner, file));
};

/** Once the first screen stands: what another device of the learner left in a shared folder. @returns how to stop */
export const followFolder = (learner: Learner): (() => void) => {
  let stop: (() => void) | null = () => undefined;
  void learner.store.device
    .get('second-device')
    .then((record) => (record === undefined || record === null ? null : import('./models/second-device.ts')))
    .then((found) => {
      if (found !== null && stop !== null) stop = found.followExchanges(learner);
    })
    .catch(() => undefined);
  return () => {
    stop?.();
    stop = null;
  };
};

const brings = (event: DragEvent): boolean =>
  !event.defaultPrevented && event.dataTransfer?.types.includes('Files') === true;

/** A file that is dropped anywhere, where nothing else takes it. @returns how to stop */
export const followDrops = (learner: Learner): (() => void) => {
  const over = (event: DragEvent) => {
    // Without it the browser would leave the app and show the file.
    if (brings(event)) event.preventDefault();
  };
  const drop = (event: DragEvent) => {
    if (!brings(event)) return;
    event.preventDefault();
    const [file, ...more] = event.dataTransfer?.files ?? [];
    if (file === undefined) return;
    const takeIn = () => {
      if (more.length === 0) return openFile(learner, file);
      go({ at: 'install' });
      void model().then(({ refuse }) => refuse(`${more.length + 1} files`, 'Drop one deck at a time.'));
    };
    if (route.value.at !== 'workshop' || route.value.draft === undefined) return takeIn();
    // Nothing leads back to what was typed in a draft and not yet read.
    void import('./workshop/dropped.ts').then(async ({ isForDraft }) => {
      if (!(await isForDraft([file, ...more]))) takeIn();
    }, takeIn);
  };
  addEventListener('dragover', over);
  addEventListener('drop', drop);
  return () => {
    removeEventListener('dragover', over);
    removeEventListener('drop', drop);
  };
};
