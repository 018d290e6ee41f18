import { useState } from 'preact/hooks';
import type { DrillDoor } from './models/drill-door.ts';
import type { Learner } from './models/learner.ts';
import { lazy } from './parts/lazy.tsx';
import { route } from './route.ts';
import { Brief } from './screens/Brief.tsx';

const Caution = lazy(() => import('./screens/Caution.tsx').then((module) => module.Caution));
/** One part: what the first screen does not need is not named in it either. */
const Screens = lazy(() => import('./Screens.tsx').then((module) => module.Screens));

export interface AppProps {
  readonly learner: Learner;
  readonly drill: DrillDoor;
  /** Has the caution been read on this device? */
  readonly cautioned: boolean;
}

export function App(props: AppProps) {
  const { learner, drill } = props;
  const [cautioned, setCautioned] = useState(props.cautioned);
  const at = route.value;
  if (!cautioned)
    return (
      <div class="app">
        <Caution
          onUnderstood={() => {
            setCautioned(true);
            learner.store.device.put('cautioned', learner.device.now()).catch(() => undefined);
          }}
        />
      </div>
    );
  return (
    <div class={`app ${at.at === 'workshop' ? 'broad' : ''}`}>
      {at.at === 'brief' && learner.practised.value.length > 0 ? (
        <Brief learner={learner} drill={drill} />
      ) : (
        <Screens learner={learner} drill={drill} at={at} />
      )}
    </div>
  );
}
