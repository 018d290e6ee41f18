import { useEffect, useRef, useState } from 'preact/hooks';
import type { Asking, Told } from '../../drill/types.ts';
import type { FormUi } from '../forms/contract.ts';
import { formUi, formUiNow } from '../forms/registry.ts';
import type { DrillModel } from '../models/drill.ts';
import type { DrillDoor } from '../models/drill-door.ts';
import type { Learner } from '../models/learner.ts';
import { buzz, loadTouch } from '../models/touch.ts';
import { Ask } from '../parts/Ask.tsx';
import { AskedFrom } from '../parts/AskedFrom.tsx';
import { Unsaved } from '../parts/Notices.tsx';
import { QueryBar, QueryField } from '../parts/QueryForm.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { WalkThrough } from '../parts/WalkThrough.tsx';
import { go } from '../route.ts';
import { Fate, isClean, VerdictBar } from './drill-verdict.tsx';

/** One question at a time; what answers it stands at the thumb. */
export function Drill(props: { readonly learner: Learner; readonly drill: DrillDoor }) {
  const [model, setModel] = useState<DrillModel | null>(null);
  useEffect(() => {
    void props.drill.open().then(setModel);
  }, [props.drill]);
  return model === null ? <main class="sheet" aria-busy="true" /> : <Drilling learner={props.learner} drill={model} />;
}

function Drilling(props: { readonly learner: Learner; readonly drill: DrillModel }) {
  const { learner, drill } = props;
  const session = drill.session.value;
  const over = session === null || session.now.kind === 'done';
  useEffect(() => {
    learner.device.updates.setBusy(true);
    const stop = drill.watchTime();
    const letSleep = learner.device.wakeLock();
    void loadTouch(learner.store);
    return () => {
      stop();
      letSleep();
      learner.device.updates.setBusy(false);
    };
  }, [learner, drill]);
  useEffect(() => {
    if (over) go({ at: session === null ? 'brief' : 'debrief' }, 'instead');
  }, [over, session]);
  if (session === null || session.now.kind === 'done') return <main class="sheet" aria-busy="true" />;

  const minutes = Math.max(1, Math.round(session.seconds / 60));
  const used = Math.min(minutes, Math.floor(session.used / 60));
  const top = (
    <header class="top">
      <a class="button plain" href="#/">
        Leave
      </a>
      <div class="whence">
        <AskedFrom invented={drill.nature.value === 'fictional'} title={drill.about.value} />
        <progress
          class="progress"
          max={session.seconds}
          value={Math.min(session.used, session.seconds)}
          aria-label="Time used"
        />
      </div>
      <span class="number time soft">
        {used} of {minutes} min
      </span>
    </header>
  );
  const { now } = session;
  if (now.kind === 'read') return <Reading drill={drill} top={top} />;
  return <AskedOrTold key={session.count} learner={learner} drill={drill} now={now} top={top} />;
}

function Reading(props: { readonly drill: DrillModel; readonly top: preact.JSX.Element }) {
  const { drill } = props;
  const reading = drill.reading.value;
  return (
    <Sheet
      title={reading?.walk.title ?? 'Read first'}
      top={props.top}
      bar={
        <div class="bar">
          <button type="button" class="main wide" disabled={drill.busy.value} onClick={() => void drill.readDone()}>
            I have read this: ask me
          </button>
        </div>
      }
    >
      <p>{reading?.fresh?.size ? 'Read what is new here' : 'Read this first'}: questions on it follow.</p>
      {reading !== null && <WalkThrough key={reading.walk.lines[0]?.id} reading={reading} />}
    </Sheet>
  );
}

function AskedOrTold(props: {
  readonly learner: Learner;
  readonly drill: DrillModel;
  readonly now: Asking | Told;
  readonly top: preact.JSX.Element;
}) {
  const { learner, drill, now } = props;
  const [form, setForm] = useState<FormUi | null>(() => formUiNow(now.offer.form));
  useEffect(() => {
    void formUi(now.offer.form).then((loaded) => setForm(() => loaded));
  }, [now.offer.form]);
  const [querying, setQuerying] = useState(false);
  const [note, setNote] = useState('');
  // Not of a verdict that was there already, and not where the answer was asked for.
  const asked = useRef(now.kind === 'ask');
  useEffect(() => {
    if (asked.current && now.kind === 'verdict' && now.given !== null) buzz(learner.device, isClean(now));
    asked.current = now.kind === 'ask';
  }, [now.kind]);
  if (form === null)
    return (
      <Sheet title="Drill" bare top={props.top}>
        {null}
      </Sheet>
    );
  const { Verdict } = form;
  const title = drill.title.value;
  if (now.kind === 'verdict' && querying && now.voided === undefined)
    return (
      <Sheet
        key="query"
        title="Query this question"
        top={props.top}
        bar={
          <QueryBar
            disabled={drill.busy.value}
            onBack={() => setQuerying(false)}
            onQuery={() => void drill.query(note)}
          />
        }
      >
        <QueryField note={note} onNote={setNote} />
        <Verdict shown={now.shown} told={now} />
      </Sheet>
    );
  if (now.kind === 'verdict')
    return (
      <Sheet
        key="verdict"
        // Another heading takes the focus, and the page to its head: what became of the answer is in sight.
        title={`${now.voided === undefined ? 'Verdict' : 'Taken back'}: ${title}`}
        bare
        top={props.top}
        bar={<VerdictBar drill={drill} now={now} onQuery={() => setQuerying(true)} />}
      >
        <Unsaved learner={learner} />
        <Fate now={now} />
        <Verdict shown={now.shown} told={now} />
      </Sheet>
    );

  return (
    <Ask
      title={title}
      shown={now.shown}
      draft={now.draft}
      form={form}
      busy={drill.busy.value}
      top={props.top}
      onDraft={(draft) => drill.draft(draft)}
      onAnswer={(sure, unsure) => void drill.answer(sure, unsure)}
    >
      <Unsaved learner={learner} />
      {drill.gone.value !== null && <p class="note">{drill.gone.value}</p>}
    </Ask>
  );
}
