import { useMemo, useRef, useState } from 'preact/hooks';
import { compareDecks } from '../../../deck/compare/compare.ts';
import { proposeVersion, riseOf } from '../../../deck/compare/rise.ts';
import type { Comparison, Rise } from '../../../deck/compare/types.ts';
import { readDeck, readValue } from '../../../deck/read.ts';
import { valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { Deck } from '../../../model/deck.ts';
import type { StoredDeck } from '../../../model/ports.ts';
import type { Learner } from '../../models/learner.ts';
import { dayWords, plural } from '../../words.ts';
import { calendarDate } from '../calendar.ts';
import { Effective } from '../handing/Effective.tsx';
import { Missed } from '../handing/Missed.tsx';
import { Note } from '../handing/Note.tsx';
import { Version } from '../handing/Version.tsx';
import type { DraftModel } from '../model/draft.ts';
import { begunFrom, isPutAbove, markOf, missedBy } from '../revisions.ts';
import { CompareList } from './CompareList.tsx';

const DRAFT = 'draft';

/** @param props.revisions of the draft's deck id on this device, newest first */
export interface CompareProps {
  readonly learner: Learner;
  readonly draft: DraftModel;
  readonly revisions: readonly StoredDeck[];
  /** Mark of the one that comes before; else the one that the draft began from. */
  readonly before?: string;
}

/** Two versions of a deck, in words: what is remembered afresh, what came, what went, how the version must rise. */
export function Compare({ learner, draft, revisions, before: wanted }: CompareProps) {
  const base = revisions.find((one) => markOf(one) === wanted) ?? begunFrom(revisions, draft) ?? revisions[0];
  const [before, setBefore] = useState(base?.ref ?? DRAFT);
  const [after, setAfter] = useState(DRAFT);
  const value = useContent(draft.value.value);
  // The list is made anew whenever something is drawn; a revision never changes.
  const refs = revisions.map(({ ref }) => ref).join(' ');
  const decks = useMemo(() => new Map(revisions.map((one) => [one.ref, one])), [refs]);
  const old = useMemo(() => deckOf(before, decks, value), [before, decks, before === DRAFT ? value : null]);
  const now = useMemo(() => deckOf(after, decks, value), [after, decks, after === DRAFT ? value : null]);
  const comparison = useMemo(() => (old === null || now === null ? null : compareSafely(old, now)), [old, now]);
  if (revisions.length === 0)
    return (
      <p class="note">
        No version of this deck is on this device yet: there is nothing to compare with. Once it is handed over and
        practised here, later drafts are compared with it.
      </p>
    );
  const choices = [
    { ref: DRAFT, words: `This draft, version ${String(valueAt(draft.value.value, '/version') ?? '?')}` },
    ...revisions.map(({ ref, version, installed }) => ({
      ref,
      words: `Version ${version}, here since ${dayWords(calendarDate(learner.device, installed), 0)}`,
    })),
  ];
  return (
    <>
      <Choice label="Before" choices={choices} value={before} onChange={setBefore} />
      <Choice label="Now" choices={choices} value={after} onChange={setAfter} />
      {comparison === null ? (
        <p class="note bad">
          {old === null || now === null
            ? 'The draft is not yet in the shape of a deck: mend what the contents mark, then compare.'
            : 'These two cannot be compared: one of them has faults that must be mended first.'}
        </p>
      ) : (
        <>
          <Summary comparison={comparison} />
          {after === DRAFT && before !== DRAFT && old !== null && (
            <Raised learner={learner} draft={draft} before={before} old={old} decks={decks} comparison={comparison} />
          )}
          <CompareList differences={comparison.differences} draft={after === DRAFT ? draft : null} />
        </>
      )}
    </>
  );
}

/**
 * The draft without what the comparison does not look at, and the same object as long as that is the same: typing the
 * note for the learner must not compare the decks at each letter.
 */
const useContent = (value: Json): Json => {
  const known = useRef<Readonly<Record<string, unknown>>>({});
  const { version: _v, amendment: _a, signatures: _s, ...rest } = value as { readonly [key: string]: Json };
  const keys = Object.keys(rest);
  const same =
    keys.length === Object.keys(known.current).length && keys.every((key) => known.current[key] === rest[key]);
  if (!same) known.current = rest;
  return known.current as Json;
};

/** null where it has not the shape of a deck. */
const deckOf = (which: string, revisions: ReadonlyMap<string, StoredDeck>, draft: Json): Deck | null => {
  const read =
    which === DRAFT
      ? readValue({ ...(draft as object), version: '0.0.0' })
      : readDeck(revisions.get(which)?.text ?? '');
  if (read.deck === undefined) return null;
  const { amendment: _, ...deck } = read.deck;
  return deck;
};

const compareSafely = (before: Deck, after: Deck): Comparison | null => {
  try {
    return compareDecks(before, after);
  } catch {
    // A draft that the checker refuses may not be resolved.
    return null;
  }
};

function Choice(props: {
  readonly label: string;
  readonly choices: readonly { readonly ref: string; readonly words: string }[];
  readonly value: string;
  readonly onChange: (ref: string) => void;
}) {
  return (
    <label class="field">
      {props.label}
      <select value={props.value} onChange={(event) => props.onChange(event.currentTarget.value)}>
        {props.choices.map(({ ref, words }) => (
          <option key={ref} value={ref}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

function Summary({ comparison }: { readonly comparison: Comparison }) {
  const { differences, same, whole } = comparison;
  return (
    <div class="stack" role="status">
      <p>
        {differences.length === 0 ? 'Nothing changed.' : `${plural(differences.length, 'change')}.`}{' '}
        {plural(same, 'thing')} to recall {same === 1 ? 'is' : 'are'} the same.
      </p>
      {!whole && (
        <p class="note warn">There are more combinations of variants than are compared: some were left out.</p>
      )}
    </div>
  );
}

const RISES: Readonly<Record<Rise, string>> = {
  none: 'Nothing that needs another version.',
  patch: 'Words changed: the last number rises.',
  minor: 'Something was added: the middle number rises.',
  major: 'An answer changed, or something went: the first number rises.',
};

const noteOf = (stored: StoredDeck | undefined): string | undefined =>
  stored === undefined ? undefined : (JSON.parse(stored.text) as Deck).amendment;

function Raised(props: {
  readonly learner: Learner;
  readonly draft: DraftModel;
  /** Ref of what it is compared with. */
  readonly before: string;
  readonly old: Deck;
  readonly decks: ReadonlyMap<string, StoredDeck>;
  readonly comparison: Comparison;
}) {
  const { learner, draft, before, old, decks, comparison } = props;
  const value = draft.value.value;
  const own = String(valueAt(value, '/version') ?? '');
  const { version, problem } = proposeVersion(old.version, own, comparison);
  // Of the version itself: what is compared is without it.
  const note = noteOf(decks.get(before));
  const missed = missedBy(learner.decks.value, draft);
  const mayBeSet = missed === null || (missed.ref === before && isPutAbove(draft, missed));
  return (
    <section class="stack rule">
      <Version draft={draft} own={own} problem={mayBeSet ? problem : null} version={version}>
        <p>{RISES[riseOf(comparison)]}</p>
        {missed !== null && <Missed learner={learner} draft={draft} missed={missed} compared={missed.ref === before} />}
      </Version>
      {comparison.differences.some(({ kind }) => kind === 'answer') && (
        <Effective draft={draft} before={old} today={calendarDate(learner.device)} />
      )}
      <Note
        draft={draft}
        before={{ version: old.version, ...(note !== undefined && { amendment: note }) }}
        changed={comparison.differences.length > 0}
      />
    </section>
  );
}
