import './class.css';
import '../print/print.css';
import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { takeReport } from '../models/install.ts';
import type { Learner } from '../models/learner.ts';
import { InstructorsTop } from '../parts/Instructors.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { dayWords, plural } from '../words.ts';
import { Files } from './Files.tsx';
import { Kept } from './Kept.tsx';
import { type ClassModel, type ClassView, type Due, openClass } from './model.ts';
import { Overview } from './Overview.tsx';
import { QueryCount } from './Queries.tsx';
import { TraineePage } from './TraineePage.tsx';
import { dayIn } from './words.ts';

/** Address of the page that says what is kept; no key of a device is as short. */
const KEPT = 'kept';

/** The class table: on the instructor's device alone. @param props.of a trainee, or `kept` */
export function ClassScreen(props: { readonly learner: Learner; readonly of: string | undefined }) {
  const { learner, of } = props;
  const [model, setModel] = useState<ClassModel | string | null>(null);
  useEffect(() => {
    let left = false;
    let mine: ClassModel | null = null;
    openClass(learner).then(
      (opened) => {
        mine = opened;
        if (left) return opened.close();
        setModel(opened);
        const report = takeReport();
        if (report !== null) void opened.takeFiles([report]);
      },
      (error) => setModel(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      left = true;
      mine?.close();
    };
  }, [learner]);
  if (model === null) return <main class="sheet" aria-busy="true" />;
  if (typeof model === 'string')
    return (
      <Page title="Class table" back={['#/settings', 'Settings']}>
        <p class="note bad" role="alert">
          The class could not be opened. {model}
        </p>
      </Page>
    );
  return <Opened learner={learner} model={model} of={of} />;
}

function Opened(props: { readonly learner: Learner; readonly model: ClassModel; readonly of: string | undefined }) {
  const { learner, model, of } = props;
  const view = model.view.value;
  if (view === null) return <main class="sheet" aria-busy="true" />;
  const problem = model.problem.value !== null && (
    <p class="note bad" role="alert">
      {model.problem.value}
    </p>
  );
  const settings = view.records.settings;
  const title = settings.title === '' ? 'Class table' : settings.title;
  if (of === KEPT)
    return (
      <Page title="What is kept, and for how long" page="kept" back={['#/class', 'Class table']}>
        {problem}
        <Kept learner={learner} model={model} view={view} />
      </Page>
    );
  if (model.due.value !== null)
    return (
      <Page title={title} page="due" back={['#/settings', 'Settings']}>
        {problem}
        <Old model={model} due={model.due.value} />
      </Page>
    );
  if (of !== undefined && of !== '') {
    const person = view.people.find(({ devices }) => devices.some(({ key }) => key === of));
    return (
      <Page
        title={person?.name ?? 'No such trainee'}
        page={`of ${of}`}
        today={view.today}
        back={['#/class', 'Class table']}
      >
        {problem}
        {person === undefined ? (
          <p>There is no report of this trainee on this device.</p>
        ) : (
          <TraineePage key={person.id} learner={learner} model={model} view={view} person={person} />
        )}
      </Page>
    );
  }
  return (
    <Page title={title} page="table" today={view.today}>
      {problem}
      <Going view={view} />
      <QueryCount view={view} />
      <Files model={model} first={view.people.length === 0} />
      {view.people.length > 0 && <Overview learner={learner} model={model} view={view} />}
      <a class="button screen-only" href="#/class/kept">
        What is kept, and for how long; who is expected
      </a>
    </Page>
  );
}

type LinkTo = readonly [href: string, words: string];

function Page(props: {
  readonly title: string;
  readonly page?: string;
  /** ISO date, for paper. */
  readonly today?: string;
  readonly back?: LinkTo;
  readonly children: ComponentChildren;
}) {
  return (
    <Sheet
      title={props.title}
      {...(props.page !== undefined && { page: props.page })}
      top={
        props.back === undefined ? (
          <InstructorsTop at="class" back={['#/settings', 'Settings']} />
        ) : (
          <header class="top">
            <a class="button plain" href={props.back[0]}>
              {props.back[1]}
            </a>
          </header>
        )
      }
    >
      <div class="class-page stack">
        <p class="print-only">
          <strong>{props.title}</strong>
          {props.today !== undefined && `, printed on ${dayWords(props.today, 0)}`}. Recency, a study aid for recall.
          Self-recorded; predicts no check result.
        </p>
        {props.children}
      </div>
    </Sheet>
  );
}

/** Reports that go soon. */
function Going(props: { readonly view: ClassView }) {
  const { going, records, today } = props.view;
  if (going === null) return null;
  return (
    <p class="note warn screen-only">
      {plural(going.reports, 'report')} will be deleted soon, the first after {dayIn(today, going.first)}: they are kept
      for {plural(records.settings.keepDays, 'day')}. <a href="#/class/kept">Keep them longer</a>
    </p>
  );
}

/** What is older than it is kept goes before anything is shown, and is named before it goes. */
function Old(props: { readonly model: ClassModel; readonly due: Due }) {
  const { model, due } = props;
  return (
    <div class="note warn stack">
      <p>
        {plural(due.reports, 'report')} came here more than {plural(due.keepDays, 'day')} ago, which is how long you
        keep them. They are deleted now, before the table opens; trainees without a later report go with them.
      </p>
      <ul class="lines">
        {due.people.map(({ id, name, heads }) => (
          <li key={id}>
            {name}: {plural(heads.length, 'report')}
          </li>
        ))}
      </ul>
      <button type="button" class="main" onClick={() => void model.letGo()}>
        Delete them and open the table
      </button>
      <a class="button" href="#/class/kept">
        Keep reports longer first
      </a>
    </div>
  );
}
