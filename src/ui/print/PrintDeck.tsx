import './print.css';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { resolve } from '../../deck/resolve.ts';
import { columnHeads, procedureRows } from '../../drill/print/procedure.ts';
import { questionSheet } from '../../drill/print/questions.ts';
import { walkOf } from '../../drill/walk.ts';
import { wordsIn } from '../../drill/walk-line.ts';
import type { Deck } from '../../model/deck.ts';
import { startsUndrawn } from '../../subjects/fill.ts';
import type { Flown, Resolved, View } from '../../subjects/resolved.ts';
import { CAUTIONS } from '../cautions.ts';
import type { Learner } from '../models/learner.ts';
import { SourceList } from '../parts/SourceList.tsx';
import { Walk } from '../parts/Walk.tsx';
import { dayWords, NATURE_WORDS, SHORT_CAUTION } from '../words.ts';
import { Answers, Questions } from './QuestionPages.tsx';
import { Rows } from './Rows.tsx';

const DONE_WORDS = {
  memory: 'From memory, then confirmed by the read checklist',
  flow: 'A flow, then confirmed by the read checklist',
  'read-and-do': 'Read and done: never from memory',
  'challenge-response': 'Challenge and response: read, never from memory',
} as const;

const PARTS = [
  ['procedures', 'Procedures'],
  ['numbers', 'Limits and scenarios'],
  ['questions', 'A question sheet, its answers apart'],
] as const;
type PartName = (typeof PARTS)[number][0];

/** Questions of one sheet. */
const MOST_QUESTIONS = 20;

/** A deck on paper, in one variant; what is not printed is chosen above it. */
export function PrintDeck(props: { readonly learner: Learner; readonly deck: Deck }) {
  const { learner, deck } = props;
  const [flown, setFlown] = useState<Flown>(() => firstOptions(deck, learner.flown(deck.id)));
  const [parts, setParts] = useState<readonly PartName[]>(() => partsOf(deck).slice(0, 1));
  const [seed, setSeed] = useState(() => learner.device.seed());
  const [id, setId] = useState('');
  useEffect(() => {
    learner.device.contentId(JSON.stringify(deck)).then(setId, () => undefined);
  }, [learner, deck]);
  const resolved = useMemo(() => resolve(deck, '0'.repeat(64), flown), [deck, flown]);
  const questions = useMemo(
    () => (parts.includes('questions') ? questionSheet(resolved, seed, MOST_QUESTIONS) : []),
    [resolved, parts, seed],
  );
  const [view] = resolved.views;
  const about = `${deck.title}, version ${deck.version}${id === '' ? '' : `, content ${id.slice(0, 16)}`}`;
  return (
    <>
      <div class="stack screen-only">
        {(deck.variants ?? []).map((axis) => (
          <label class="field" key={axis.id}>
            {axis.label}
            <select
              value={flown[axis.id]?.[0] ?? ''}
              onChange={({ currentTarget: { value } }) => setFlown({ ...flown, [axis.id]: [value] })}
            >
              {Object.entries(axis.options).map(([option, label]) => (
                <option key={option} value={option}>
                  {label}
                </option>
              ))}
            </select>
          </label>
        ))}
        <fieldset>
          <legend>What to print</legend>
          {PARTS.filter(([part]) => partsOf(deck).includes(part)).map(([part, label]) => (
            <label class="pick" key={part}>
              <input
                type="checkbox"
                checked={parts.includes(part)}
                onChange={({ currentTarget: { checked } }) =>
                  setParts(checked ? [...parts, part] : parts.filter((one) => one !== part))
                }
              />
              {label}
            </label>
          ))}
        </fieldset>
        <div class="row">
          <button type="button" class="main" onClick={() => window.print()}>
            Print
          </button>
          {parts.includes('questions') && (
            <button type="button" onClick={() => setSeed(learner.device.seed())}>
              Other questions
            </button>
          )}
        </div>
      </div>
      <div class="print-all">
        <footer class="print-foot small">
          {NATURE_WORDS[deck.nature]} · {about}. {SHORT_CAUTION}
        </footer>
        <div>
          <Head deck={deck} view={view} id={id} />
          {view !== undefined && parts.includes('procedures') && <Procedures resolved={resolved} view={view} />}
          {view !== undefined && parts.includes('numbers') && <Numbers resolved={resolved} view={view} />}
          {questions.length > 0 && (
            <>
              <Questions questions={questions} about={about} nature={NATURE_WORDS[deck.nature]} />
              <Answers questions={questions} about={about} nature={NATURE_WORDS[deck.nature]} />
            </>
          )}
        </div>
      </div>
    </>
  );
}

/** Of what a deck has; questions can be made of either. */
const partsOf = ({ procedures = [], limits = [], scenarios = [] }: Deck): PartName[] => [
  ...(procedures.length > 0 ? (['procedures'] as const) : []),
  ...(limits.length + scenarios.length > 0 ? (['numbers'] as const) : []),
  'questions',
];

/** What the learner flies first; where that is not told, what the deck names first. */
const firstOptions = (deck: Deck, own: Flown): Flown =>
  Object.fromEntries(
    (deck.variants ?? []).map(({ id, options }) => {
      const all = Object.keys(options);
      return [id, [all.find((option) => own[id]?.includes(option)) ?? all[0] ?? '']];
    }),
  );

function Head(props: { readonly deck: Deck; readonly view: View | undefined; readonly id: string }) {
  const { deck, view, id } = props;
  return (
    <section class="stack">
      <h2>{deck.title}</h2>
      <p>
        <span class="mark">{NATURE_WORDS[deck.nature]}</span>
      </p>
      <dl class="facts small">
        <dt>Version</dt>
        <dd>{deck.version}</dd>
        {view !== undefined && view.label !== '' && (
          <>
            <dt>Variant</dt>
            <dd>{view.label}</dd>
          </>
        )}
        <dt>Made by</dt>
        <dd>{deck.madeBy ?? 'not said'}</dd>
        <dt>Checked by</dt>
        <dd>{deck.checkedBy ?? 'no second person'}</dd>
        {deck.effective !== undefined && (
          <>
            <dt>In force from</dt>
            <dd>{dayWords(deck.effective, 0)}</dd>
          </>
        )}
        {deck.reviewBy !== undefined && (
          <>
            <dt>To be reviewed by</dt>
            <dd>{dayWords(deck.reviewBy, 0)}</dd>
          </>
        )}
        <dt>Content</dt>
        <dd>
          <code>{id}</code>
        </dd>
      </dl>
      <SourceList sources={deck.sources} />
      <ul class="lines small">
        {CAUTIONS.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}

function Procedures(props: { readonly resolved: Resolved; readonly view: View }) {
  const { resolved, view } = props;
  return (
    <>
      {view.procedures.map((found) => {
        const { procedure } = found;
        return (
          <section class="stack sheet-page" key={procedure.id}>
            <h2>{procedure.title}</h2>
            <p class="small">
              <span class="mark">{NATURE_WORDS[resolved.deck.nature]}</span> {DONE_WORDS[procedure.done]}
              {view.label !== '' && `. ${view.label}`}
            </p>
            {procedure.starts !== undefined && <p>{startsUndrawn(resolved.deck, procedure.starts)}</p>}
            <Rows rows={procedureRows(resolved, view, found)} heads={columnHeads(resolved)} />
            {procedure.why !== undefined && <p class="small">{wordsIn(resolved, procedure.why)}</p>}
          </section>
        );
      })}
    </>
  );
}

function Numbers(props: { readonly resolved: Resolved; readonly view: View }) {
  const { resolved, view } = props;
  const walks = [
    walkOf(resolved, { variant: view.id, group: '', groupKind: 'limit' }),
    walkOf(resolved, { variant: view.id, group: '', groupKind: 'scenario' }),
  ].filter((walk) => walk !== null);
  return (
    <>
      {walks.map((walk) => (
        <section class="stack sheet-page" key={walk.title}>
          <h2>{walk.title}</h2>
          <p>
            <span class="mark">{NATURE_WORDS[resolved.deck.nature]}</span>
          </p>
          <Walk walk={walk} />
        </section>
      ))}
    </>
  );
}
