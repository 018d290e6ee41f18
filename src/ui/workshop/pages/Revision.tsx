import { useMemo, useState } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import { type Citation, citationsOf } from '../../../deck/sheet/citations.ts';
import { put } from '../../../draft/change.ts';
import { removeNode } from '../../../draft/nodes.ts';
import {
  applySheet,
  concernedBy,
  type RevisionSheet,
  readSheet,
  sheetProblem,
  type Tick,
} from '../../../draft/revise.ts';
import type { Deck } from '../../../model/deck.ts';
import { plural } from '../../words.ts';
import type { DraftModel } from '../model/draft.ts';
import { openField } from '../place.ts';

/** Where the draft keeps an unfinished sheet. */
const SIDE = 'revision-sheet';

/**
 * The manual was revised: what rests on its changed paragraphs is gone through one by one. The sheet is kept with the
 * draft until it is applied.
 */
export function Revision({ draft }: { readonly draft: DraftModel }) {
  const value = draft.value.value;
  const deck = useMemo(() => readValue(value).deck, [value]);
  const [said, setSaid] = useState('');
  const sheet = readSheet(draft.side.value[SIDE]);
  const { source, paragraphs } = sheet;
  const citations = useMemo(() => (deck === undefined ? [] : citationsSafely(deck)), [deck]);
  const concerned = useMemo(() => concernedBy(citations, { source, paragraphs }), [citations, source, paragraphs]);
  if (deck === undefined)
    return <p class="note">The draft is not yet in the shape of a deck: mend what the contents mark first.</p>;
  if (deck.sources.length === 0) return <p class="note">The deck names no source yet. Add one under Sources.</p>;
  const set = (more: Partial<RevisionSheet>) => {
    setSaid('');
    draft.putSide(SIDE, { ...sheet, ...more });
  };
  const left = concerned.filter(({ key }) => sheet.ticks[key] === undefined).length;
  const problem = sheetProblem(deck, sheet);
  const applyIt = () => {
    draft.change('Revision sheet applied', applySheet(value, deck, sheet));
    draft.putSide(SIDE, undefined);
    setSaid(
      left === 0
        ? 'Done: all that rests on the changed paragraphs counts as checked against the new edition.'
        : `Done. ${plural(left, 'thing says', 'things say')} the edition before, until checked.`,
    );
  };
  return (
    <>
      <p>
        Enter which paragraphs of the manual changed. What rests on them is listed, to be held against the new text.
        What rests on other paragraphs counts as checked: they read as before.
      </p>
      <Head deck={deck} sheet={sheet} onChange={set} />
      <section class="stack rule">
        <h2>What rests on them ({concerned.length})</h2>
        {concerned.length === 0 && (
          <p class="soft">
            {source === '' || paragraphs.trim() === ''
              ? 'Choose the source and enter the changed paragraphs.'
              : 'Nothing in this deck names these paragraphs.'}
          </p>
        )}
        <ul class="lines">
          {concerned.map((one) => (
            <li class="stack" key={one.key}>
              <Line
                citation={one}
                draft={draft}
                tick={sheet.ticks[one.key]}
                onTick={(tick) => {
                  const { [one.key]: _, ...rest } = sheet.ticks;
                  set({ ticks: tick === undefined ? rest : { ...rest, [one.key]: tick } });
                }}
              />
            </li>
          ))}
        </ul>
      </section>
      <section class="stack rule">
        {left > 0 && <p>{plural(left, 'thing is', 'things are')} not ticked: they will say the edition before.</p>}
        {problem !== null && <p class="note">{problem}</p>}
        <button type="button" class="main" disabled={problem !== null} onClick={applyIt}>
          Put the new edition into the deck
        </button>
        <p role="status">{said}</p>
      </section>
    </>
  );
}

const citationsSafely = (deck: Deck): readonly Citation[] => {
  try {
    return citationsOf(deck);
  } catch {
    // A draft that the checker refuses may not be resolved; the contents say what is to be mended.
    return [];
  }
};

function Head(props: {
  readonly deck: Deck;
  readonly sheet: RevisionSheet;
  readonly onChange: (more: Partial<RevisionSheet>) => void;
}) {
  const { deck, sheet, onChange } = props;
  const source = deck.sources.find(({ id }) => id === sheet.source);
  return (
    <>
      <label class="field">
        Source
        <select value={sheet.source} onChange={(event) => onChange({ source: event.currentTarget.value })}>
          <option value="">Choose …</option>
          {deck.sources.map(({ id, title, edition }) => (
            <option key={id} value={id}>
              {title}
              {edition !== undefined && `, ${edition}`}
            </option>
          ))}
        </select>
      </label>
      <label class="field">
        Changed paragraphs
        <textarea
          rows={2}
          aria-describedby="paragraphs-help"
          value={sheet.paragraphs}
          onInput={(event) => onChange({ paragraphs: event.currentTarget.value })}
        />
      </label>
      <p class="small soft" id="paragraphs-help">
        With commas between them: 3.2.4, 3.3, Table 2. A paragraph takes its sub-paragraphs with it.
      </p>
      <label class="field">
        New edition
        <input
          type="text"
          autocomplete="off"
          value={sheet.edition}
          onInput={(event) => onChange({ edition: event.currentTarget.value })}
        />
      </label>
      <label class="field">
        Date of issue
        <input type="date" value={sheet.issued} onInput={(event) => onChange({ issued: event.currentTarget.value })} />
      </label>
      {source !== undefined && (
        <p class="small soft">
          Until now: {[source.edition, source.issued].filter((x) => x !== undefined).join(', ') || 'no edition named'}.
        </p>
      )}
    </>
  );
}

const TICKS: readonly (readonly [Tick, string])[] = [
  ['same', 'Still right'],
  ['changed', 'Changed: put right'],
];

function Line(props: {
  readonly citation: Citation;
  readonly draft: DraftModel;
  readonly tick: Tick | undefined;
  readonly onTick: (tick: Tick | undefined) => void;
}) {
  const { citation, draft, tick, onTick } = props;
  const { key, path, label, says, place, edition } = citation;
  const remove = () => {
    const value = draft.value.value;
    // Within a procedure a block that nothing is left of goes, too.
    const changes = key.startsWith('step ') ? removeNode(value, path) : [put(value, path, undefined)];
    draft.change('Gone from the manual', changes);
    onTick(undefined);
  };
  return (
    <fieldset class="stack">
      <legend>
        <strong>{label}</strong>
      </legend>
      <p class="small soft">
        {place === '' ? 'Names no paragraph' : place}
        {edition !== null && `; checked against ${edition}`}
      </p>
      {says.map(([name, words]) => (
        <p key={name}>
          {name !== '' && <span class="small soft">{name}: </span>}
          {words}
        </p>
      ))}
      {TICKS.map(([value, words]) => (
        <label class="pick" key={value}>
          <input
            type="checkbox"
            checked={tick === value}
            onChange={(event) => onTick(event.currentTarget.checked ? value : undefined)}
          />
          {words}
        </label>
      ))}
      <div class="row">
        <button type="button" onClick={() => openField(draft.id, path)}>
          Open it<span class="hidden-visually">: {label}</span>
        </button>
        <button type="button" class="plain" data-remove={path} onClick={remove}>
          Gone: remove it<span class="hidden-visually">: {label}</span>
        </button>
      </div>
    </fieldset>
  );
}
