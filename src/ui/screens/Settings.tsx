import { useEffect, useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import { CAUTIONS } from '../cautions.ts';
import { saveCopy, takeCopy } from '../models/copies.ts';
import type { Learner } from '../models/learner.ts';
import { onwards } from '../models/whence.ts';
import { AskedOf } from '../parts/AskedOf.tsx';
import { useCopying } from '../parts/CopyIn.tsx';
import { InstructorsPlaces } from '../parts/Instructors.tsx';
import { KnownSigners } from '../parts/KnownSigners.tsx';
import { Fold } from '../parts/Later.tsx';
import { LookOfApp } from '../parts/LookOfApp.tsx';
import { OwnMemory } from '../parts/OwnMemory.tsx';
import { PacedSetting } from '../parts/PacedSetting.tsx';
import { SecondDevice } from '../parts/SecondDevice.tsx';
import { Sheet, Tabs } from '../parts/Sheet.tsx';
import { go } from '../route.ts';
import { COURSE_WORDS, type Course, dayWords, plural } from '../words.ts';

/** What of practice may leave the device. */
const OUTWARD = [
  ['report', 'Progress report'],
  ['record', 'Practice record'],
] as const;

export function Settings(props: { readonly learner: Learner }) {
  const { learner } = props;
  const { store, device } = learner;
  const [kept, setKept] = useState<readonly string[]>([]);
  const { busy, work, told } = useCopying();
  useEffect(() => {
    void Promise.all([store.log.count(), store.persisted(), store.journal()]).then(([entries, persisted, journal]) =>
      setKept([
        `${plural(entries, 'entry', 'entries')} in the practice log on this device.`,
        persisted
          ? 'The browser has promised not to clear them by itself.'
          : 'The browser has not promised to keep them: it may clear them when the device runs out of room.',
        journal === 'opfs'
          ? 'They are kept twice, in two places.'
          : 'This browser has no second place to keep them: save a copy now and then.',
      ]),
    );
    // Counted anew once a copy came in.
  }, [store, busy]);
  const year = new Date(learner.today() * 86_400_000).getUTCFullYear();
  return (
    <Sheet title="Settings" bar={<Tabs at="settings" />}>
      <div class="folds">
        <LookOfApp learner={learner} />
        {learner.courses.value.map((course) => (
          <OfCourse key={course} learner={learner} course={course} year={year} />
        ))}
      </div>

      <section class="stack">
        <h2>Your answers</h2>
        <button type="button" class="main" disabled={busy} onClick={() => void work(() => saveCopy(learner))}>
          Save a copy of everything
        </button>
        <label class="button">
          Open a saved copy
          <input
            type="file"
            class="hidden-visually"
            accept=".txt,.json,text/plain"
            disabled={busy}
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              event.currentTarget.value = '';
              if (file !== undefined) void work((tell) => takeCopy(learner, file, tell));
            }}
          />
        </label>
        {told}
      </section>

      <div class="folds">
        <Fold title="What is kept, and where" said={kept.slice(0, 1)}>
          {() => (
            <>
              {kept.slice(1).map((line) => (
                <p key={line}>{line}</p>
              ))}
              <p>A copy is joined to what is here: nothing is lost, and the same copy twice counts once.</p>
            </>
          )}
        </Fold>
        <SecondDevice learner={learner} />
        <KnownSigners learner={learner} />
        <OwnMemory learner={learner} />
        <Fold title="For instructors" said="class table, assignments, Workshop">
          {() => (
            <>
              <p>
                Decks are written in the Workshop. Practice is handed out as an assignment. Progress reports of trainees
                are put together in the class table.
              </p>
              <InstructorsPlaces />
            </>
          )}
        </Fold>
        <Fold title="About" said={`Recency ${device.build.version}: cautions, what it rests on, licence`}>
          {() => (
            <>
              <p>
                Recency {device.build.version}. It works without a network; nothing you answer leaves this device,
                unless you share a folder with a second one.
              </p>
              <ul class="lines">
                {CAUTIONS.map((text) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
              <h3>What it rests on</h3>
              <ul class="lines small">
                {SOURCES.map((text) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
              <p class="small soft">
                The sources of each deck stand on the deck's own page and under each answer. Free software under the MIT
                licence.
              </p>
            </>
          )}
        </Fold>
      </div>
    </Sheet>
  );
}

/** One course: its date and minutes, what is asked, and what of practice may leave the device. */
function OfCourse(props: { readonly learner: Learner; readonly course: Course; readonly year: number }) {
  const { learner, course, year } = props;
  const day = learner.checkDay(course);
  return (
    <Fold
      title={`Your practice: ${COURSE_WORDS[course].toLowerCase()}`}
      said={`${day === null ? 'no check date' : `check on ${dayWords(isoOfDay(day), year)}`}, ${learner.minutes(course)} minutes a day`}
    >
      {() => (
        <>
          <button
            type="button"
            onClick={() => {
              learner.setCourse(course);
              go({ at: 'date' });
            }}
          >
            Change date and minutes
          </button>
          <div class="row">
            {OUTWARD.map(([at, label]) => (
              <button
                key={at}
                type="button"
                onClick={() => {
                  learner.setCourse(course);
                  location.hash = onwards(at);
                }}
              >
                {label}
              </button>
            ))}
          </div>
          <AskedOf learner={learner} course={course} />
          <PacedSetting learner={learner} course={course} />
        </>
      )}
    </Fold>
  );
}

/** Of the method, not of the decks. */
const SOURCES: readonly string[] = [
  'Retrieval rather than reading: Yang et al. 2021. Spacing: Latimier et al. 2021. The answer after each try: Metcalfe et al. 2009.',
  'Skill decays without use, its cognitive parts most: Arthur et al. 1998; Casner et al. 2014.',
  'Memory model: FSRS-6, an open algorithm, with its published default weights, or with your own, fitted to your answers.',
  'Marking of orders: Kendall 1938; Dilworth 1950 for the fewest steps to move.',
];
