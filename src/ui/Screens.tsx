import type { DrillDoor } from './models/drill-door.ts';
import type { Learner } from './models/learner.ts';
import { lazy } from './parts/lazy.tsx';
import { OtherTab } from './parts/OtherTab.tsx';
import { Sheet, Tabs } from './parts/Sheet.tsx';
import type { Route } from './route.ts';

const Drill = lazy(() => import('./screens/Drill.tsx').then((module) => module.Drill));
const Debrief = lazy(() => import('./screens/Debrief.tsx').then((module) => module.Debrief));
const Decks = lazy(() => import('./screens/Decks.tsx').then((module) => module.Decks));
const DeckPage = lazy(() => import('./screens/DeckPage.tsx').then((module) => module.DeckPage));
const Variants = lazy(() => import('./screens/Variants.tsx').then((module) => module.Variants));
const Read = lazy(() => import('./screens/Read.tsx').then((module) => module.Read));
const Settings = lazy(() => import('./screens/Settings.tsx').then((module) => module.Settings));
const Print = lazy(() => import('./screens/Outward.tsx').then((module) => module.Print));
const Install = lazy(() => import('./screens/Install.tsx').then((module) => module.Install));
const Missed = lazy(() => import('./screens/Missed.tsx').then((module) => module.Missed));
const Rehearsal = lazy(() => import('./screens/Rehearsal.tsx').then((module) => module.Rehearsal));
const LastLook = lazy(() => import('./screens/LastLook.tsx').then((module) => module.LastLook));
const Workshop = lazy(() => import('./workshop/Workshop.tsx').then((module) => module.Workshop));
const Class = lazy(() => import('./class/ClassScreen.tsx').then((module) => module.ClassScreen));
const Amendment = lazy(() => import('./screens/Amendment.tsx').then((module) => module.Amendment));
const Paced = lazy(() => import('./paced/PacedScreen.tsx').then((module) => module.PacedScreen));
const Report = lazy(() => import('./screens/Outward.tsx').then((module) => module.Report));
const Record = lazy(() => import('./screens/Outward.tsx').then((module) => module.Record));
const Assign = lazy(() => import('./assign/Assign.tsx').then((module) => module.Assign));
const CheckDate = lazy(() => import('./screens/CheckDate.tsx').then((module) => module.CheckDate));

/** Open in a tab that does not write: what is only read. */
const READ_ONLY: ReadonlySet<Route['at']> = new Set(['decks', 'deck', 'read', 'print', 'class']);
/** Where there is nothing to practise: everything else leads to the decks. */
const WITHOUT_DECKS: ReadonlySet<Route['at']> = new Set(['deck', 'print', 'workshop', 'class', 'assign']);

/** Every screen but the Brief; each is loaded when it is first shown. */
export function Screens(props: { readonly learner: Learner; readonly drill: DrillDoor; readonly at: Route }) {
  const { learner, drill, at } = props;
  const always = at.at === 'install' || at.at === 'settings';
  if (!always && learner.practised.value.length === 0 && !WITHOUT_DECKS.has(at.at)) return <Decks learner={learner} />;
  // One place writes: the other shows the Brief alone.
  if (!always && !learner.writing.value && !READ_ONLY.has(at.at))
    return (
      <Sheet title="Open elsewhere" bar={<Tabs at="brief" />}>
        <OtherTab learner={learner} />
      </Sheet>
    );
  switch (at.at) {
    case 'brief':
      return null;
    case 'install':
      return <Install learner={learner} />;
    case 'settings':
      return <Settings learner={learner} />;
    case 'drill':
      return <Drill learner={learner} drill={drill} />;
    case 'debrief':
      return <Debrief learner={learner} drill={drill} />;
    case 'decks':
      return <Decks learner={learner} />;
    case 'date':
      return <CheckDate learner={learner} drill={drill} />;
    case 'missed':
      return <Missed learner={learner} />;
    case 'report':
      return <Report learner={learner} />;
    case 'record':
      return <Record learner={learner} />;
    case 'rehearse':
      return <Rehearsal learner={learner} />;
    case 'assign':
      return <Assign learner={learner} />;
    case 'last-look':
      return <LastLook learner={learner} />;
    case 'workshop':
      return <Workshop learner={learner} at={at} />;
    case 'class':
      return <Class learner={learner} of={at.of} />;
    case 'deck':
      return <DeckPage key={at.deck} learner={learner} deck={at.deck} />;
    case 'print':
      return <Print key={at.deck} learner={learner} deck={at.deck} />;
    case 'variants':
      return <Variants key={at.deck} learner={learner} deck={at.deck} />;
    case 'amendment':
      return <Amendment key={at.deck} learner={learner} deck={at.deck} />;
    case 'paced':
      return <Paced key={`${at.deck} ${at.thing}`} learner={learner} deck={at.deck} paced={at.thing} />;
    case 'read':
      return <Read key={`${at.deck} ${at.thing}`} learner={learner} deck={at.deck} thing={at.thing} />;
  }
}
