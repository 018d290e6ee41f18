import { markedWords, type Run } from '../../../deck/compare/marked.ts';
import type { Difference } from '../../../deck/compare/types.ts';
import { weightiestFirst } from '../../../deck/compare/weight.ts';
import { forgetMemory, keepMemory, keepsMemory } from '../../../draft/keep-memory.ts';
import type { DraftModel } from '../model/draft.ts';
import { openField } from '../place.ts';

const GROUPS: readonly {
  readonly kinds: readonly Difference['kind'][];
  readonly title: string;
  readonly says?: string;
}[] = [
  {
    kinds: ['answer'],
    title: 'Answers changed',
    says: 'What a learner remembers of these starts afresh.',
  },
  {
    kinds: ['same-answer'],
    title: 'Same answer, other words',
    says: 'Memory is kept. Look again that nobody who learned the old words would now be wrong.',
  },
  { kinds: ['added'], title: 'Added' },
  { kinds: ['removed'], title: 'Removed' },
  { kinds: ['words'], title: 'Words changed' },
  { kinds: ['head'], title: 'Of the deck itself' },
];

/** @param props.draft where the newer side is the draft: fields can be opened, memory kept */
export function CompareList(props: { readonly differences: readonly Difference[]; readonly draft: DraftModel | null }) {
  const { differences, draft } = props;
  return (
    <>
      {GROUPS.map(({ kinds, title, says }) => {
        const of = weightiestFirst(differences.filter(({ kind }) => kinds.includes(kind)));
        if (of.length === 0) return null;
        return (
          <section class="stack" key={title}>
            <h2>
              {title} ({of.length})
            </h2>
            {says !== undefined && <p class="small soft">{says}</p>}
            <ul class="lines">
              {of.map((one) => (
                <li class="stack" key={`${one.kind} ${one.path} ${one.what} ${one.variants} ${one.old} ${one.now}`}>
                  <One difference={one} draft={draft} />
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </>
  );
}

function One({ difference, draft }: { readonly difference: Difference; readonly draft: DraftModel | null }) {
  const { thing, what, old, now, variants, because, gone, path, kind, rise, critical } = difference;
  const marked = markedWords(old, now);
  const both = old !== '' && now !== '';
  return (
    <>
      <h3>
        {critical && <span class="mark">critical</span>} {[thing, what].filter((words) => words !== '').join(': ')}
      </h3>
      {variants !== '' && <p class="small">{variants}</p>}
      <div class={both ? 'side-by-side compared' : ''}>
        {old !== '' && (
          <p>
            <span class="small soft">Before: </span>
            <Marked runs={marked.old} as={both ? 'del' : null} />
          </p>
        )}
        {now !== '' && (
          <p>
            <span class="small soft">Now: </span>
            <Marked runs={marked.now} as={both ? 'ins' : null} />
          </p>
        )}
      </div>
      {because !== undefined && <p class="small">Starts afresh because of {because} beside it.</p>}
      {kind === 'words' && rise === 'major' && (
        <p class="small">Nothing is remembered of this by itself, but it changes what is done.</p>
      )}
      {kind === 'same-answer' && numbersIn(old) !== numbersIn(now) && (
        <p class="note warn">
          The numbers differ. Keep the memory only if nobody who learned the old ones would now be wrong.
        </p>
      )}
      {draft !== null && <Keeping difference={difference} draft={draft} />}
      {draft !== null && !gone && (
        <div>
          <button type="button" class="plain" onClick={() => openField(draft.id, path)}>
            Open it<span class="hidden-visually">: {thing}</span>
          </button>
        </div>
      )}
    </>
  );
}

const numbersIn = (text: string): string => (text.match(/\d+(?:[.,]\d+)*/g) ?? []).join(' ');

/** Marked by strokes, not by colour; the space before a word has none. */
function Marked({ runs, as: Tag }: { readonly runs: readonly Run[]; readonly as: 'ins' | 'del' | null }) {
  return (
    <>
      {runs.map(({ text, changed }, i) => {
        if (!changed || Tag === null) return text;
        const words = text.trimStart();
        return [text.slice(0, text.length - words.length), <Tag key={i}>{words}</Tag>];
      })}
    </>
  );
}

function Keeping({ difference, draft }: { readonly difference: Difference; readonly draft: DraftModel }) {
  const { keeps, kind } = difference;
  if (kind !== 'answer' && kind !== 'same-answer') return null;
  const value = draft.value.value;
  if (keeps === undefined)
    return kind === 'answer' && difference.because === undefined ? (
      <p class="small soft">Its answers differ among variants or situations: its memory cannot be kept.</p>
    ) : null;
  const kept = keepsMemory(value, keeps.path, keeps.stamps);
  // Joined by the older of the two: nothing of the draft can be taken back.
  if (kind === 'same-answer' && !kept) return null;
  const name = [keeps.path, ...keeps.stamps].join(' ');
  const turn = (keep: boolean) => {
    if (keep) draft.change('Memory kept', keepMemory(value, keeps.path, keeps.stamps));
    else draft.change('Memory starts afresh', forgetMemory(value, keeps.path, keeps.stamps));
    // It comes up under another heading: the cursor follows it.
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-keep="${CSS.escape(name)}"]`)?.focus());
  };
  return (
    <label class="pick">
      <input type="checkbox" data-keep={name} checked={kept} onChange={(event) => turn(event.currentTarget.checked)} />
      Same answer, other words: memory is kept
    </label>
  );
}
