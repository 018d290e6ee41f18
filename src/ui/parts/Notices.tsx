import { signal } from '@preact/signals';
import { useEffect, useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import type { Learner } from '../models/learner.ts';
import { courseOf, plural } from '../words.ts';
import { Amended } from './Amended.tsx';
import { ClockQuestion } from './ClockQuestion.tsx';
import { NotHereYet } from './NotHereYet.tsx';
import { OtherTab } from './OtherTab.tsx';

const read = signal(false);

/** The browser had lost everything: never a silent empty start. */
export function Lost(props: { readonly learner: Learner }) {
  const { opened } = props.learner.store;
  if ((opened.status !== 'lost' && opened.status !== 'recovered') || read.value) return null;
  return (
    <div class={`note ${opened.status === 'lost' ? 'bad' : 'warn'} stack`} role="alert">
      <p>{opened.note}</p>
      <div class="row">
        {opened.status === 'lost' && (
          <a class="button main" href="#/settings">
            Open a saved copy
          </a>
        )}
        <button
          type="button"
          onClick={() => {
            read.value = true;
          }}
        >
          I know
        </button>
      </div>
    </div>
  );
}

/** What the learner must be told before anything else, the gravest first. */
export function Notices(props: { readonly learner: Learner }) {
  const { learner } = props;
  return (
    <>
      <ClockQuestion learner={learner} />
      <Lost learner={learner} />
      <Unsaved learner={learner} />
      <OtherTab learner={learner} />
      {learner.memory.value.newer > 0 && (
        <p class="note">
          {plural(learner.memory.value.newer, 'entry was', 'entries were')} made by a newer version of the app: kept,
          but not counted here. Update this one.
        </p>
      )}
      <NotHereYet learner={learner} />
      <PastReview learner={learner} />
      <Amended learner={learner} />
      <Update learner={learner} />
      <Reminder learner={learner} />
      {inMessenger() && (
        <p class="note warn">
          This is the browser inside another app: it may forget everything. Open this page in your own browser to keep
          your answers.
        </p>
      )}
    </>
  );
}

/** Decks of the course whose review date is past. */
function PastReview(props: { readonly learner: Learner }) {
  const { learner } = props;
  const today = isoOfDay(learner.today());
  return (
    <>
      {learner.practised.value
        .filter(({ stored, deck: { reviewBy = today } }) => {
          return courseOf(stored.nature) === learner.course.value && reviewBy < today;
        })
        .map(({ deck: { id, title } }) => (
          <p class="note warn" key={id}>
            The review date of {title} is past: check it against the current manual.
          </p>
        ))}
    </>
  );
}

/** An answer that could not be written stays in memory until it is. */
export function Unsaved(props: { readonly learner: Learner }) {
  const { problem, retry } = props.learner;
  if (problem.value === null) return null;
  return (
    <div class="note bad stack" role="alert">
      <p>{problem.value}</p>
      <button type="button" onClick={() => void retry().catch(() => undefined)}>
        Try to store it again
      </button>
    </div>
  );
}

function Update(props: { readonly learner: Learner }) {
  const { updates } = props.learner.device;
  const [state, setState] = useState({ waiting: false, offlineReady: false, stale: false });
  const [said, setSaid] = useState('');
  useEffect(() => updates.subscribe(setState), [updates]);
  if (state.stale)
    return (
      <div class="note stack">
        <p>This page is of an older version of the app.</p>
        <button type="button" onClick={() => updates.reload()}>
          Load the new version
        </button>
      </div>
    );
  if (!state.waiting) return null;
  const accept = async () => {
    const answer = await updates.accept();
    if (answer === 'busy-elsewhere') setSaid('A drill is under way in another tab. Finish it first.');
    if (answer === 'none') setSaid('There is no new version any more.');
  };
  return (
    <div class="note stack" role="status">
      <p>A new version of the app is here. Your answers stay as they are.</p>
      <button type="button" onClick={() => void accept()}>
        Use the new version
      </button>
      {said !== '' && <p>{said}</p>}
    </div>
  );
}

function Reminder(props: { readonly learner: Learner }) {
  const { learner } = props;
  const [text, setText] = useState<string | null>(null);
  useEffect(() => {
    if (learner.writing.value)
      void import('../models/copies.ts')
        .then(({ copyReminder }) => copyReminder(learner))
        .then(setText, () => undefined);
  }, [learner]);
  if (text === null) return null;
  const later = () =>
    import('../models/copies.ts')
      .then(({ remindLater }) => remindLater(learner))
      .then(
        () => setText(null),
        () => undefined,
      );
  return (
    <div class="note stack">
      <p>{text} A copy saved elsewhere survives a lost phone.</p>
      <div class="row">
        <a class="button" href="#/settings">
          Save a copy
        </a>
        <button type="button" onClick={() => void later()}>
          In a week
        </button>
      </div>
    </div>
  );
}

/** A page shown inside another app: Android's web view says so, and on an iPhone the word Safari is missing. */
const inMessenger = (): boolean => {
  const { userAgent } = navigator;
  if (matchMedia('(display-mode: standalone)').matches) return false;
  return /; wv\)/.test(userAgent) || (/\b(iPhone|iPad)\b/.test(userAgent) && !/\bSafari\//.test(userAgent));
};
