import '../print/print.css';
import { useEffect, useState } from 'preact/hooks';
import { dateWords } from '../../lib/date-words.ts';
import { type PracticeRecord, practiceRecord, type RecordDeck } from '../../report/record.ts';
import type { Learner } from '../models/learner.ts';
import { gather } from '../models/report.ts';
import { whence } from '../models/whence.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { verdictLine } from '../parts/VerdictWords.tsx';
import { COURSE_WORDS, NATURE_WORDS, plural, SHORT_CAUTION } from '../words.ts';

/** What was practised, on paper, for a training file: whose it is, is written by hand. */
export function Record(props: { readonly learner: Learner }) {
  const { learner } = props;
  const course = learner.course.value;
  const practised = learner.practised.value;
  const memory = learner.memory.value;
  const back = whence('report');
  const [record, setRecord] = useState<PracticeRecord | null>(null);
  const [failed, setFailed] = useState('');
  useEffect(() => {
    let left = false;
    gather(learner, course).then(
      ({ decks }) => left || setRecord(practiceRecord(decks)),
      (error) => left || setFailed(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      left = true;
    };
  }, [learner, course, practised, memory]);
  return (
    <Sheet
      title="Practice record"
      top={
        <header class="top">
          <a class="button plain" href={back.href}>
            {back.words}
          </a>
        </header>
      }
    >
      <div class="stack screen-only">
        {learner.courses.value.length > 1 && (
          <fieldset>
            <legend>
              <h2>Which decks</h2>
            </legend>
            {learner.courses.value.map((one) => (
              <label class="pick" key={one}>
                <input type="radio" name="course" checked={one === course} onChange={() => learner.setCourse(one)} />
                {COURSE_WORDS[one]}
              </label>
            ))}
          </fieldset>
        )}
        <p>Print it, or print it into a PDF. Write your name on the sheet: the app does not know it.</p>
        <div class="row">
          <button
            type="button"
            class="main"
            disabled={record === null || record.decks.length === 0}
            onClick={() => window.print()}
          >
            Print
          </button>
        </div>
        <p role="status">{record === null && failed === '' ? 'Reading your answers.' : ''}</p>
      </div>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
      {record !== null &&
        (record.decks.length === 0 ? (
          <p>Nothing was answered yet: there is nothing to record.</p>
        ) : (
          <Paper record={record} day={learner.today()} app={learner.device.build.version} />
        ))}
    </Sheet>
  );
}

const HEADS = ['items', 'missed', 'unsure', 'sound', 'fluent'] as const;

function Paper(props: { readonly record: PracticeRecord; readonly day: number; readonly app: string }) {
  const { record, day, app } = props;
  return (
    <div class="print-all">
      <footer class="print-foot small">
        Recency {app}, {dateWords(day)}. {SHORT_CAUTION}
      </footer>
      <div class="stack">
        <h2>Practice record of {dateWords(day)}</h2>
        <dl class="facts">
          <dt>Name</dt>
          <dd class="by-hand">
            <span class="hidden-visually">to be filled in by hand</span>
          </dd>
          <dt>Practised</dt>
          <dd>
            {spanWords(record)}: {plural(record.days, 'day')}, {plural(record.minutes, 'minute')},{' '}
            {plural(record.answers, 'question')} answered
          </dd>
        </dl>
        <p>
          <strong>Self-recorded.</strong> Nobody else saw the answers being given. The operator or the authority decides
          whether it counts. Recall of these questions predicts no check result.
        </p>
        {record.decks.map((deck) => (
          <OfDeck key={deck.id} deck={deck} />
        ))}
        <p class="small">The first column of a table counts items, the others answers to them. {verdictLine()}</p>
      </div>
    </div>
  );
}

const spanWords = ({ from, to }: Pick<PracticeRecord, 'from' | 'to'>): string => {
  if (from === null || to === null) return 'On days that are not known';
  return from === to ? dateWords(from) : `${dateWords(from)} to ${dateWords(to)}`;
};

function OfDeck(props: { readonly deck: RecordDeck }) {
  const { deck } = props;
  const rows = deck.former === null ? deck.rows : [...deck.rows, deck.former];
  return (
    <section class="stack rule record-deck">
      <h3>
        {deck.title}, version {deck.version}
      </h3>
      <p>
        <span class="mark">{NATURE_WORDS[deck.nature]}</span>
      </p>
      <dl class="facts small">
        <dt>Content</dt>
        <dd>
          <code>{deck.contentId}</code>
        </dd>
        <dt>After</dt>
        <dd>
          {deck.sources
            .map(({ title, edition }) => (edition === undefined ? title : `${title}, edition ${edition}`))
            .join('; ')}
        </dd>
        {deck.variants.length > 0 && (
          <>
            <dt>Flown as</dt>
            <dd>{deck.variants.join('; ')}</dd>
          </>
        )}
        <dt>Practised</dt>
        <dd>
          {spanWords(deck)}: {plural(deck.days, 'day')}, {plural(deck.minutes, 'minute')},{' '}
          {plural(deck.answers, 'question')} answered
        </dd>
      </dl>
      <table class="record-table small">
        <caption class="hidden-visually">Verdicts of items in {deck.title}</caption>
        <thead>
          <tr>
            {HEADS.map((head) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        {rows.map(({ title, items, verdicts }) => (
          <tbody key={title}>
            <tr>
              <th scope="rowgroup" colSpan={HEADS.length}>
                {title}
              </th>
            </tr>
            <tr>
              {[items, ...verdicts].map((n, i) => (
                <td class="number" key={HEADS[i]}>
                  {n}
                </td>
              ))}
            </tr>
          </tbody>
        ))}
      </table>
    </section>
  );
}
