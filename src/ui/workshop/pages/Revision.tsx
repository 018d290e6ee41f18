import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import { type Citation, citationsOf, uncitedOf } from '../../../deck/sheet/citations.ts';
import {
  applySheet,
  byProcedure,
  concernedBy,
  type RevisionSheet,
  readSheet,
  sheetProblem,
  tickedSame,
} from '../../../draft/revise.ts';
import type { Deck } from '../../../model/deck.ts';
import { plural } from '../../words.ts';
import { focusField } from '../findings/focus.ts';
import { focusSoon } from '../handing/focus.ts';
import type { DraftModel } from '../model/draft.ts';
import { openField } from '../place.ts';
import { thingTitle } from '../titles.ts';
import { placeOf, RevisionLine } from './RevisionLine.tsx';

/** Where the draft keeps an unfinished sheet. */
const SIDE = 'revision-sheet';

/** From where something was opened: whoever comes back goes on there. */
let wasAt: { readonly draft: string; readonly place: string } | null = null;

/**
 * The manual was revised: what rests on its changed paragraphs is gone through one by one. The sheet is kept with the
 * draft until it is applied.
 */
export function Revision({ draft }: { readonly draft: DraftModel }) {
  const value = draft.value.value;
  const deck = useMemo(() => readValue(value).deck, [value]);
  const [said, setSaid] = useState('');
  const heading = useRef<HTMLHeadingElement>(null);
  const status = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (wasAt?.draft === draft.id) focusField(wasAt.place);
    wasAt = null;
  }, [draft]);
  const sheet = readSheet(draft.side.value[SIDE]);
  const { source, paragraphs } = sheet;
  const citations = useMemo(() => safely(citationsOf, deck), [deck]);
  const uncited = useMemo(() => safely(uncitedOf, deck), [deck]);
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
    // Taken back, the sheet is as it was before.
    draft.change('Revision sheet applied', applySheet(value, deck, sheet), { side: SIDE, value: undefined });
    setSaid(
      left === 0
        ? 'Done: all that names the changed paragraphs counts as checked against the new edition.'
        : `Done. ${plural(left, 'thing says', 'things say')} the edition before, until checked.`,
    );
    focusSoon(status);
  };
  const open = (place: string, path: string) => {
    wasAt = { draft: draft.id, place };
    openField(draft.id, path);
  };
  const isFilled = source !== '' && paragraphs.trim() !== '';
  return (
    <>
      <p>
        Enter which paragraphs of the manual changed. What rests on them is listed, to be held against the new text.
        What rests on other paragraphs counts as checked: they read as before.
      </p>
      <Head deck={deck} sheet={sheet} onChange={set} />
      <section class="stack rule">
        <h2 tabIndex={-1} ref={heading}>
          What rests on them ({concerned.length})
        </h2>
        {concerned.length === 0 && (
          <p class="soft">
            {isFilled
              ? 'Nothing in this deck names these paragraphs.'
              : 'Choose the source and enter the changed paragraphs.'}
          </p>
        )}
        {byProcedure(concerned).map(({ procedure, of }) => (
          <Group
            key={`${procedure} ${of[0]?.key}`}
            title={procedure === null ? null : thingTitle(draft.at(procedure))}
            of={of}
            sheet={sheet}
            onTicks={(ticks) => set({ ticks })}
          >
            {of.map((one) => (
              <li class="stack" key={one.key}>
                <RevisionLine
                  citation={one}
                  draft={draft}
                  tick={sheet.ticks[one.key]}
                  onTick={(tick) => {
                    const { [one.key]: _, ...rest } = sheet.ticks;
                    set({ ticks: tick === undefined ? rest : { ...rest, [one.key]: tick } });
                  }}
                  onOpen={() => open(placeOf(one), one.path)}
                  onGone={() => focusSoon(heading)}
                />
              </li>
            ))}
          </Group>
        ))}
      </section>
      {isFilled && uncited.length > 0 && (
        <section class="stack rule">
          <h2>Without a source ({uncited.length})</h2>
          <p>These name no source, so the sheet cannot tell whether they rest on a changed paragraph. Look at each:</p>
          <ul class="lines">
            {uncited.map((one) => (
              <li key={one.key}>
                <button
                  type="button"
                  class="plain"
                  data-path={placeOf(one)}
                  onClick={() => open(placeOf(one), one.path)}
                >
                  {one.label}
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section class="stack rule">
        {left > 0 && (
          <p>
            {left === 1 ? '1 thing is not ticked: it' : `${left} things are not ticked: they`} will say the edition
            before.
          </p>
        )}
        {problem !== null && <p class="note">{problem}</p>}
        <button type="button" class="main" disabled={problem !== null} onClick={applyIt}>
          Put the new edition into the deck
        </button>
        <p role="status" tabIndex={-1} ref={status}>
          {said}
        </p>
      </section>
    </>
  );
}

/** What of one procedure rests on the paragraphs, or what is in none. */
function Group(props: {
  /** Of the procedure. */
  readonly title: string | null;
  readonly of: readonly Citation[];
  readonly sheet: RevisionSheet;
  readonly onTicks: (ticks: RevisionSheet['ticks']) => void;
  readonly children: ComponentChildren;
}) {
  const { title, of, sheet, onTicks } = props;
  /** Ticked in one go, to be taken back in one. */
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const isOpen = of.some(({ key }) => sheet.ticks[key] === undefined);
  const all = () => {
    setTicked(of.filter(({ key }) => sheet.ticks[key] === undefined).map(({ key }) => key));
    onTicks(tickedSame(sheet, of));
  };
  const back = () => {
    setTicked([]);
    onTicks(Object.fromEntries(Object.entries(sheet.ticks).filter(([key]) => !ticked.includes(key))));
  };
  return (
    <>
      {title !== null && (
        <>
          <h3>{title}</h3>
          {of.length > 1 && (isOpen || ticked.length > 0) && (
            <button type="button" onClick={isOpen ? all : back}>
              {isOpen ? 'The whole procedure is still right' : 'Take these ticks back'}
              <span class="hidden-visually">: {title}</span>
            </button>
          )}
        </>
      )}
      <ul class="lines">{props.children}</ul>
    </>
  );
}

const safely = <T,>(read: (deck: Deck) => readonly T[], deck: Deck | undefined): readonly T[] => {
  try {
    return deck === undefined ? [] : read(deck);
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
