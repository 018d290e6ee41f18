import '../ui/base.css';
import '../ui/screens.css';
import { render } from 'preact';
import type { StoreProblem } from '../model/ports.ts';
import { openStore } from '../store/open.ts';
import { App } from '../ui/App.tsx';
import { loadAppearance } from '../ui/models/appearance.ts';
import { createDrillDoor } from '../ui/models/drill-door.ts';
import { createLearner } from '../ui/models/learner.ts';
import { followAddress, go } from '../ui/route.ts';
import { Broken, Opening } from '../ui/screens/Opening.tsx';
import { browserDevice } from './device.ts';
import { takeIncoming } from './incoming.ts';

/** File Handling API of the WICG, where the browser has it. */
interface LaunchQueue {
  setConsumer(consumer: (launch: { readonly files?: readonly { getFile(): Promise<File> }[] }) => void): void;
}

/** What the page of linked decks, or another app, left for this one. */
const handedOver = async () => {
  const linked = takeIncoming(sessionStorage);
  if (linked !== null) return { ...linked, name: linked.from };
  const shared = await (await import('./shared.ts')).takeShared();
  return shared === null ? null : { ...shared, from: null };
};

const root = document.getElementById('app');

const main = async (at: HTMLElement): Promise<void> => {
  const device = browserDevice();
  render(<Opening />, at);
  try {
    const store = await openStore({
      app: device.build.version,
      journal: async () => (await import('../journal/client.ts')).openJournal(),
      exchange: async () => (await import('../workers/joining-client.ts')).exchangeAway,
      union: async (...input) => (await import('../workers/joining-client.ts')).unionAway(...input),
      draftCopies: async () => (await import('../journal/drafts.ts')).openDraftCopies(),
      onBlocked: () => render(<Opening blocked />, at),
    });
    await loadAppearance(store);
    const learner = await createLearner(device, store);
    const drill = await createDrillDoor(learner);
    const cautioned = (await store.device.get('cautioned')) !== undefined;
    const wanted = new URLSearchParams(location.search).get('go');
    if (wanted !== null) history.replaceState(null, '', './');
    if (wanted === 'decks') go({ at: 'decks' }, 'instead');
    if (wanted === 'drill' && learner.practised.value.length > 0) {
      if (drill.underWay.value === null) await drill.start(learner.course.value);
      go({ at: 'drill' }, 'instead');
    }
    const incoming = wanted === 'incoming' ? await handedOver() : null;
    followAddress();
    const arrivals = import('../ui/arrivals.ts');
    if (incoming !== null) (await arrivals).openIncoming(learner, incoming);
    arrivals.then(
      ({ followDrops, followFolder, openFile }) => {
        followDrops(learner);
        followFolder(learner);
        // A file that the device opens with the app.
        (window as { launchQueue?: LaunchQueue }).launchQueue?.setConsumer(
          ({ files }) => void files?.[0]?.getFile().then((file) => openFile(learner, file)),
        );
      },
      // The file picker is left.
      () => undefined,
    );
    render(<App learner={learner} drill={drill} cautioned={cautioned} />, at);
    // The date may have been set while the app was out of sight.
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') void learner.lookAtClock().catch(() => undefined);
    });
    addEventListener('focus', () => void learner.lookAtClock().catch(() => undefined));
    // Once the first screen stands.
    setTimeout(() => void store.tidy().catch(() => undefined), 3000);
  } catch (error) {
    render(<Broken why={(error as StoreProblem).message} />, at);
    // The cause is for whoever looks for it; the learner reads what to do.
    console.error(error);
  }
};

if (root !== null) void main(root);
