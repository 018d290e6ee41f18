import { useEffect, useState } from 'preact/hooks';
import { titleOf } from '../../model/form.ts';
import type { FormUi } from '../forms/contract.ts';
import { formUi, formUiNow } from '../forms/registry.ts';
import type { Learner } from '../models/learner.ts';
import { createRehearsalModel, type RehearsalModel } from '../models/rehearsal.ts';
import { Ask } from '../parts/Ask.tsx';
import { AskedFrom } from '../parts/AskedFrom.tsx';
import { Unsaved } from '../parts/Notices.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { RehearsalChoice } from './RehearsalChoice.tsx';
import { RehearsalEnd } from './RehearsalEnd.tsx';

/** One procedure from its first step to its last, in one's own seat: no hints, and no verdict before the end. */
export function Rehearsal(props: { readonly learner: Learner }) {
  const { learner } = props;
  const [model, setModel] = useState<RehearsalModel | null>(null);
  const [failed, setFailed] = useState('');
  useEffect(() => {
    let gone = false;
    let made: RehearsalModel | null = null;
    createRehearsalModel(learner).then(
      (ready) => {
        made = ready;
        if (gone) ready.dispose();
        else setModel(ready);
      },
      (error) => setFailed(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      gone = true;
      made?.dispose();
    };
  }, [learner]);
  if (failed !== '')
    return (
      <Sheet title="Rehearsal">
        <p class="note bad">{failed}</p>
      </Sheet>
    );
  if (model === null) return <main class="sheet" aria-busy="true" />;
  if (model.rehearsal.value === null) return <RehearsalChoice learner={learner} rehearsal={model} />;
  if (model.at.value < 0) return <RehearsalEnd learner={learner} rehearsal={model} />;
  return <Asked key={model.at.value} learner={learner} rehearsal={model} />;
}

function Asked(props: { readonly learner: Learner; readonly rehearsal: RehearsalModel }) {
  const { learner, rehearsal: model } = props;
  const at = model.at.value;
  const questions = model.rehearsal.value?.questions ?? [];
  const question = questions[at];
  const form = question?.offer.form;
  const [ui, setUi] = useState<FormUi | null>(() => (form === undefined ? null : formUiNow(form)));
  useEffect(() => {
    if (form !== undefined) void formUi(form).then((loaded) => setUi(() => loaded));
  }, [form]);
  useEffect(() => {
    learner.device.updates.setBusy(true);
    const stop = model.watchTime();
    const letSleep = learner.device.wakeLock();
    return () => {
      stop();
      letSleep();
      learner.device.updates.setBusy(false);
    };
  }, [learner, model]);
  const top = (
    <header class="top">
      <a class="button plain" href="#/">
        Leave
      </a>
      <div class="whence">
        <AskedFrom
          invented={model.practised.value?.stored.nature === 'fictional'}
          title={`Rehearsal${seatWords(model)}`}
        />
        <progress class="progress" max={questions.length} value={at} aria-label="Questions answered" />
      </div>
      <span class="number time soft">
        {at + 1} of {questions.length}
      </span>
    </header>
  );
  if (ui === null || question === undefined)
    return (
      <Sheet title="Rehearsal" bare top={top}>
        {null}
      </Sheet>
    );
  const { shown } = question;
  return (
    <Ask
      title={titleOf(shown)}
      shown={shown}
      draft={model.draft.value}
      form={ui}
      busy={model.busy.value}
      top={top}
      onDraft={(draft) => model.put(draft)}
      onAnswer={(sure, unsure) => void model.answer(sure, unsure)}
    >
      <Unsaved learner={learner} />
      {shown.form === 'run' && model.rehearsal.value?.seat !== null && (
        <p class="small soft">All steps, the other pilot's too. Your own are looked at apart.</p>
      )}
    </Ask>
  );
}

const seatWords = ({ rehearsal, choice }: RehearsalModel): string => {
  const seat = rehearsal.value?.seat ?? null;
  if (seat === null) return '';
  const labels = choice.value.flatMap(({ seats }) => seats);
  return ` as ${labels.find(({ id }) => id === seat)?.label ?? seat}`;
};
