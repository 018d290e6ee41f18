import { useState } from 'preact/hooks';
import type { ClassSettings, ExpectedDeck } from '../../class/types.ts';
import { olderFirst } from '../../deck/amend.ts';
import type { Learner } from '../models/learner.ts';
import { go } from '../route.ts';
import { plural } from '../words.ts';
import type { ClassModel, ClassView } from './model.ts';

/** Days for which reports may be kept. */
const KEEP = { least: 1, most: 3650 };
const SILENT = { least: 1, most: 365 };
/** A pseudonym has at most 40 characters; a class of thousands is none. */
const MOST_EXPECTED = 1000;

const whole = (text: string, { least, most }: { readonly least: number; readonly most: number }): number | null => {
  const n = Number(text.trim());
  return /^\d+$/.test(text.trim()) && n >= least && n <= most ? n : null;
};

/** Decks that can be expected: those that are here, those reported, and those chosen before. */
const decksOf = (learner: Learner, view: ClassView): readonly ExpectedDeck[] => {
  const found = new Map<string, ExpectedDeck>();
  for (const { decks } of view.reports.values())
    for (const { id, title } of decks) found.set(id, { id, title, contentId: null });
  for (const { id, title } of [...learner.decks.value].sort(olderFirst)) found.set(id, { id, title, contentId: null });
  for (const deck of view.records.settings.decks) found.set(deck.id, deck);
  return [...found.values()].sort((a, b) => (a.title < b.title ? -1 : 1));
};

/** What lies where, for how long, and what the class is. */
export function Kept(props: { readonly learner: Learner; readonly model: ClassModel; readonly view: ClassView }) {
  const { learner, model, view } = props;
  const { settings, heads } = view.records;
  const due = model.due.value?.reports ?? 0;
  const [asking, setAsking] = useState(false);
  return (
    <>
      <ul class="lines">
        <li>
          On this device: {plural(heads.length + due, 'report')} of {plural(view.people.length, 'trainee')}, your notes,
          and what is set below. Nothing of it is sent anywhere.
        </li>
        <li>
          In a database of this browser by the name of recency-class, apart from your own answers. It is in no saved
          copy of yours, and no other device has it. Whoever can use this browser can read it: lock the device.
        </li>
        <li>
          Of each trainee: the pseudonym, the letters of the device's key, the figures by item, and of wrong answers,
          queries, days and minutes what the trainee did not leave out. No names, no times of day, no single answers.
        </li>
        <li>
          For {plural(settings.keepDays, 'day')} from the day on which a report was opened here. Older ones are deleted
          when the table is opened; they are named before they go, and {plural(14, 'day')} ahead.
        </li>
        <li>
          A trainee can be deleted at any time on the trainee's own page. The files that you were sent, printed pages,
          CSV and xAPI files lie where you put them: delete those yourself.
        </li>
        <li>If the browser clears its data the class is gone: keep the files as long as you need them.</li>
      </ul>
      <Form model={model} settings={settings} decks={decksOf(learner, view)} />
      <section class="stack rule">
        <h2>Everything</h2>
        {asking ? (
          <div class="note warn stack">
            <p>All reports, notes and settings of the class go from this device for good. Your own answers stay.</p>
            <div class="row">
              <button type="button" onClick={() => setAsking(false)}>
                Keep
              </button>
              <button type="button" onClick={() => void model.clear().then(() => go({ at: 'class' }, 'instead'))}>
                Delete everything of the class
              </button>
            </div>
          </div>
        ) : (
          <button type="button" onClick={() => setAsking(true)}>
            Delete the class
          </button>
        )}
      </section>
    </>
  );
}

function Form(props: {
  readonly model: ClassModel;
  readonly settings: ClassSettings;
  readonly decks: readonly ExpectedDeck[];
}) {
  const { model, settings, decks } = props;
  const [title, setTitle] = useState(settings.title);
  const [keep, setKeep] = useState(String(settings.keepDays));
  const [silent, setSilent] = useState(String(settings.silentDays));
  const [expected, setExpected] = useState(settings.expected.join('\n'));
  const [wanted, setWanted] = useState<ReadonlySet<string>>(new Set(settings.decks.map(({ id }) => id)));
  const [wrong, setWrong] = useState('');
  const [said, setSaid] = useState('');
  const save = async () => {
    setSaid('');
    const [keepDays, silentDays] = [whole(keep, KEEP), whole(silent, SILENT)];
    if (keepDays === null)
      return setWrong(`Reports are kept for ${KEEP.least} to ${KEEP.most} days: enter a whole number.`);
    if (silentDays === null)
      return setWrong(`Days without a report are ${SILENT.least} to ${SILENT.most}: enter a whole number.`);
    const names = [...new Set(expected.split('\n').map((name) => name.trim()))].filter((name) => name !== '');
    if (names.length > MOST_EXPECTED) return setWrong(`At most ${MOST_EXPECTED} trainees can be expected.`);
    setWrong('');
    // As they are kept: without blanks, each name once.
    setTitle(title.trim().slice(0, 80));
    setExpected(names.join('\n'));
    await model.putSettings({
      title: title.trim().slice(0, 80),
      keepDays,
      silentDays,
      expected: names,
      decks: decks.filter(({ id }) => wanted.has(id)),
    });
    if (model.problem.value === null) setSaid('Kept on this device.');
  };
  return (
    <form
      class="stack rule"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
      // What was said of the state before holds no more. A tick is drawn anew only once it has changed.
      onInput={({ target }) => (target as HTMLInputElement).type !== 'checkbox' && setSaid('')}
      onChange={() => setSaid('')}
    >
      <h2>The class</h2>
      <label class="field">
        Title
        <input type="text" maxLength={80} value={title} onInput={(event) => setTitle(event.currentTarget.value)} />
      </label>
      <label class="field">
        Days for which reports are kept
        <input type="text" inputMode="numeric" value={keep} onInput={(event) => setKeep(event.currentTarget.value)} />
      </label>
      <label class="field">
        Say of whom nothing came for so many days
        <input
          type="text"
          inputMode="numeric"
          value={silent}
          onInput={(event) => setSilent(event.currentTarget.value)}
        />
      </label>
      <label class="field">
        Who is expected: pseudonyms, one a line
        <textarea rows={4} value={expected} onInput={(event) => setExpected(event.currentTarget.value)} />
      </label>
      {decks.length > 0 && (
        <fieldset>
          <legend>Decks expected; none chosen: reports on any deck are taken</legend>
          {decks.map(({ id, title: name }) => (
            <label class="pick" key={id}>
              <input
                type="checkbox"
                checked={wanted.has(id)}
                onChange={(event) => {
                  const next = new Set(wanted);
                  if (event.currentTarget.checked) next.add(id);
                  else next.delete(id);
                  setWanted(next);
                }}
              />
              {name}
            </label>
          ))}
        </fieldset>
      )}
      {wrong !== '' && (
        <p class="note bad" role="alert">
          {wrong}
        </p>
      )}
      <button type="submit" class="main">
        Keep these settings
      </button>
      <p role="status">{said}</p>
    </form>
  );
}
