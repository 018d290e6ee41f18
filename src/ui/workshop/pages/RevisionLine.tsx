import type { Citation } from '../../../deck/sheet/citations.ts';
import { put } from '../../../draft/change.ts';
import { removeNode } from '../../../draft/nodes.ts';
import type { Tick } from '../../../draft/revise.ts';
import type { DraftModel } from '../model/draft.ts';

/** By which a thing's line is found again, in the form of a JSON Pointer. */
export const placeOf = ({ key }: Pick<Citation, 'key'>): string => `/revision-sheet/${key}`;

const TICKS: readonly (readonly [Tick, string])[] = [
  ['same', 'Still right'],
  ['changed', 'Changed: put right'],
];

/** A thing that rests on a changed paragraph: what it says, and what was found when it was held against the new text. */
export function RevisionLine(props: {
  readonly citation: Citation;
  readonly draft: DraftModel;
  readonly tick: Tick | undefined;
  readonly onTick: (tick: Tick | undefined) => void;
  readonly onOpen: () => void;
  readonly onGone: () => void;
}) {
  const { citation, draft, tick, onTick } = props;
  const { key, path, label, says, place, edition } = citation;
  const remove = () => {
    const value = draft.value.value;
    // Within a procedure a block that nothing is left of goes, too.
    const changes = key.startsWith('step ') ? removeNode(value, path) : [put(value, path, undefined)];
    draft.change('Gone from the manual', changes);
    onTick(undefined);
    props.onGone();
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
        <button type="button" data-path={placeOf(citation)} onClick={props.onOpen}>
          Open it<span class="hidden-visually">: {label}</span>
        </button>
        <button type="button" class="plain" data-remove={path} onClick={remove}>
          Gone: remove it<span class="hidden-visually">: {label}</span>
        </button>
      </div>
    </fieldset>
  );
}
