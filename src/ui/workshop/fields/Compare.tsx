import { useState } from 'preact/hooks';
import { put } from '../../../draft/change.ts';
import { useAt, useDraft } from './editing.ts';
import { focusAt } from './focus.ts';
import { joined, type Offer, type Value } from './formula-help.ts';
import { readTyped } from './read-typed.ts';
import type { Choices } from './spec.ts';

const OPS: Readonly<Record<Value['kind'], Choices>> = {
  number: [
    ['>', 'is more than'],
    ['>=', 'is at least'],
    ['<', 'is less than'],
    ['<=', 'is at most'],
    ['==', 'is'],
    ['!=', 'is not'],
  ],
  string: [
    ['==', 'is'],
    ['!=', 'is not'],
  ],
  boolean: [
    ['', 'is so'],
    ['!', 'is not so'],
  ],
};

function Pick(props: {
  readonly label: string;
  readonly of: Choices;
  readonly value: string;
  readonly onPick: (value: string) => void;
}) {
  const { label, of, value, onPick } = props;
  return (
    <label class="field short">
      {label}
      <select value={value} onChange={(event) => onPick(event.currentTarget.value)}>
        {of.map(([one, words]) => (
          <option key={one} value={one}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Value, comparison and number, picked: written as a formula, which stays to be seen and changed. */
export function Compare(props: {
  readonly path: string;
  readonly label: string;
  readonly values: readonly Value[];
  readonly limits: readonly Offer[];
}) {
  const { path, label, values, limits } = props;
  const draft = useDraft();
  const written = useAt(path);
  const whole = typeof written === 'string' ? written : '';
  const [picked, pick] = useState({ name: '', op: '', right: '', number: '', by: '&&' });
  const left = values.find(({ name }) => name === picked.name) ?? values[0];
  if (left === undefined) return null;
  const ops = OPS[left.kind];
  const op = ops.some(([one]) => one === picked.op) ? picked.op : (ops[0]?.[0] as string);
  const rights: Choices =
    left.kind === 'number'
      ? [
          ['', 'this number'],
          ...limits.map(({ text, words }) => [text, `limit: ${words}`] as const),
          ...values.flatMap(({ name, kind }) =>
            kind === 'number' && name !== left.name ? [[name, name] as const] : [],
          ),
        ]
      : left.choices.map(([id, words]) => [`"${id}"`, words] as const);
  const right = rights.find(([one]) => one === picked.right)?.[0] ?? rights[0]?.[0] ?? '';
  const number = readTyped(picked.number);
  const needsNumber = left.kind === 'number' && right === '';
  const comparison =
    left.kind === 'boolean' ? `${op}${left.name}` : `${left.name} ${op} ${needsNumber ? (number ?? '') : right}`;
  const set = (part: Partial<typeof picked>) => pick({ ...picked, ...part });
  const write = () => {
    const by = picked.by === '||' ? '||' : '&&';
    draft.change(label, [put(draft.value.peek(), path, joined(whole, by, comparison))]);
    focusAt(path);
  };
  return (
    <fieldset class="group stack">
      <legend>By picking</legend>
      <div class="fields">
        {whole.trim() !== '' && (
          <Pick
            label="Besides"
            of={[
              ['&&', 'and'],
              ['||', 'or'],
            ]}
            value={picked.by}
            onPick={(by) => set({ by })}
          />
        )}
        <Pick
          label="Value"
          of={values.map(({ name, words }) => [name, `${name}: ${words}`])}
          value={left.name}
          onPick={(name) => set({ name })}
        />
        <Pick label="Comparison" of={ops} value={op} onPick={(next) => set({ op: next })} />
        {left.kind !== 'boolean' && (
          <Pick label="With" of={rights} value={right} onPick={(next) => set({ right: next })} />
        )}
        {needsNumber && (
          <label class="field narrow">
            Number
            <input
              type="text"
              class="number"
              autocomplete="off"
              value={picked.number}
              onInput={(event) => set({ number: event.currentTarget.value })}
            />
          </label>
        )}
      </div>
      <div class="row">
        <button type="button" disabled={needsNumber && number === null} onClick={write}>
          Write <code>{comparison}</code>
        </button>
      </div>
    </fieldset>
  );
}
