import { useState } from 'preact/hooks';
import { valueAt } from '../../../draft/change.ts';
import { blocksToUse, useBlock as takeBlock } from '../../../draft/lanes.ts';
import { blankStep, insertNodes, placeOf } from '../../../draft/nodes.ts';
import { crewFinder } from '../../../draft/paste/crew.ts';
import { cueOf, knownOf } from '../../../draft/paste/known.ts';
import { readWords } from '../../../draft/paste/words.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList } from '../../../lib/json.ts';
import type { LineModel } from './line-model.ts';
import { nodeWords } from './words.ts';

/** A step from one line of words, as a pasted list is read. */
const stepFrom = (doc: Json, words: string): Json => {
  const known = knownOf(doc);
  const { by, do: act, say, cue } = readWords(words, crewFinder(known.crew)).fields;
  const step = blankStep(doc, {
    ...(by !== undefined && { by }),
    // Nothing typed is lost, whatever was made of it.
    ...(act !== undefined || say === undefined ? { do: act ?? words } : {}),
    ...(say !== undefined && { say }),
  });
  return cue === undefined ? step : ({ ...(step as object), cue: cueOf(cue, known) } as unknown as Json);
};

/** Words and Enter make step after step at the end. */
export function QuickAdd(props: { readonly line: LineModel }) {
  const { line } = props;
  const list = `${line.procedure}/steps`;
  // Kept with the draft: a line half written is there again after a look elsewhere.
  const kept = line.draft.side.value[list];
  const words = typeof kept === 'string' ? kept : '';
  const setWords = (next: string) => line.draft.putSide(list, next === '' ? undefined : next);
  const add = () => {
    const text = words.trim();
    if (text === '') return;
    const doc = line.draft.value.peek();
    const nodes = valueAt(doc, list);
    const step = stepFrom(doc, text);
    line.draft.change('Step added', insertNodes(doc, { list, index: isList(nodes) ? nodes.length : 0 }, [step]));
    line.said.value = `Added: ${nodeWords(doc, step)}`;
    setWords('');
  };
  return (
    <form
      class="quick stack"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <label class="field">
        <span>Step after step</span>
        <input
          type="text"
          autocomplete="off"
          enterkeyhint="enter"
          aria-describedby="quick-help"
          value={words}
          onInput={(event) => setWords(event.currentTarget.value)}
        />
      </label>
      <p class="small soft" id="quick-help">
        Write one and press Enter: “PF: Gear lever UP”. A callout stands in quotation marks: PM: "Positive climb".
      </p>
      <div class="row">
        <button type="submit">Add it</button>
      </div>
    </form>
  );
}

/** A named block of another procedure, taken with what is remembered of it. */
export function TakeBlock(props: { readonly line: LineModel }) {
  const { line } = props;
  const doc = line.draft.value.value;
  const blocks = blocksToUse(doc, line.procedure);
  const [chosen, setChosen] = useState('');
  if (blocks.length === 0) return null;
  const id = blocks.some((one) => one.id === chosen) ? chosen : (blocks[0]?.id ?? '');
  const open = line.open.value === null ? null : placeOf(line.open.value);
  const take = () => {
    const list = `${line.procedure}/steps`;
    const nodes = line.draft.at(list);
    const place =
      open === null ? { list, index: isList(nodes) ? nodes.length : 0 } : { ...open, index: open.index + 1 };
    line.act('Block taken', takeBlock(line.draft.value.peek(), place, id), `${place.list}/${place.index}`);
  };
  return (
    <div class="stack">
      <label class="field">
        <span>A block of another procedure</span>
        <select value={id} onChange={(event) => setChosen(event.currentTarget.value)}>
          {blocks.map((one) => (
            <option key={`${one.owner} ${one.id}`} value={one.id}>
              {one.owner}: {one.id}
            </option>
          ))}
        </select>
      </label>
      <div class="row">
        <button type="button" onClick={take}>
          {open === null ? 'Take it at the end' : 'Take it behind what is open'}
        </button>
      </div>
    </div>
  );
}
