import { expect, test } from 'vitest';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import type { Drafts, StoredDraft } from '../../../../src/model/ports.ts';
import { createDraft, type Desk } from '../../../../src/ui/workshop/model/draft.ts';

const FIRST: StoredDraft = {
  id: 'one',
  seq: 1,
  made: 1000,
  changed: 1000,
  value: { title: '', limits: [] },
  history: null,
  side: {},
  base: null,
};

/** Drafts in memory, with a switch for what goes wrong. */
const desk = () => {
  const kept = new Map([[FIRST.id, FIRST]]);
  const state = { fails: false, puts: 0 };
  const drafts: Drafts = {
    list: async () => [...kept.values()],
    get: async (id) => kept.get(id) ?? null,
    put: async (draft, before) => {
      state.puts += 1;
      await new Promise((done) => setTimeout(done));
      if (state.fails) throw new Error('There is no room.');
      const there = kept.get(draft.id) ?? null;
      if ((there?.seq ?? 0) !== before) return { there };
      kept.set(draft.id, draft);
      return 'kept';
    },
    remove: async (id) => void kept.delete(id),
  };
  let seed = 0;
  const clock = { at: 2000 };
  const made: Desk = { store: { drafts }, device: { now: () => clock.at, seed: () => ++seed } };
  return { kept, state, made, clock };
};
const titleOf = (value: unknown) => (value as { title: string }).title;
const type = (draft: ReturnType<typeof createDraft>, text: string) => {
  for (let n = 1; n <= text.length; n++) draft.put('/title', text.slice(0, n));
};

test('every change is kept; typing in one field is one step back', async () => {
  const { kept, made } = desk();
  const draft = createDraft(made, FIRST);
  type(draft, 'Tarn 46');
  draft.change('A limit added', [{ path: '/limits/0', before: undefined, after: { id: 'a' } }]);
  expect(draft.state.value).toBe('saving');
  await draft.settled();
  expect(draft.state.value).toBe('saved');
  expect(kept.get('one')?.value).toEqual({ title: 'Tarn 46', limits: [{ id: 'a' }] });
  expect(draft.undoes.value).toBe('A limit added');
  draft.undo();
  draft.undo();
  expect(draft.value.value).toEqual(FIRST.value);
  expect([draft.undoes.value, draft.redoes.value]).toEqual([null, 'Typing']);
  draft.redo();
  await draft.settled();
  expect(titleOf(kept.get('one')?.value)).toBe('Tarn 46');
});

test('after a kill it goes on where it was, and what was done before can still be taken back', async () => {
  const { kept, made } = desk();
  const draft = createDraft(made, FIRST);
  type(draft, 'Tarn');
  draft.putSide('sheet', { ticked: 3 });
  await draft.settled();
  const again = createDraft(made, structuredClone(kept.get('one')) as StoredDraft);
  expect(again.value.value).toEqual({ title: 'Tarn', limits: [] });
  expect(again.side.value).toEqual({ sheet: { ticked: 3 } });
  again.undo();
  expect(again.value.value).toEqual(FIRST.value);
});

test('many keys in a row are few writes, and the last key is among them', async () => {
  const { kept, state, made } = desk();
  const draft = createDraft(made, FIRST);
  type(draft, 'x'.repeat(200));
  await draft.settled();
  expect(titleOf(kept.get('one')?.value)).toHaveLength(200);
  expect(state.puts).toBeLessThan(10);
});

test('what could not be kept stays on the screen, is said, and is kept when it can be', async () => {
  const { kept, state, made } = desk();
  const draft = createDraft(made, FIRST);
  state.fails = true;
  type(draft, 'Tarn');
  await draft.settled();
  expect(draft.state.value).toEqual({ problem: 'There is no room.' });
  expect(titleOf(draft.value.value)).toBe('Tarn');
  state.fails = false;
  draft.retry();
  await draft.settled();
  expect(titleOf(kept.get('one')?.value)).toBe('Tarn');
});

test('of two tabs neither overwrites the other: the slower one is kept as a draft of its own', async () => {
  const { kept, made } = desk();
  const [mine, theirs] = [createDraft(made, FIRST), createDraft(made, FIRST)];
  type(theirs, 'theirs');
  await theirs.settled();
  type(mine, 'mine');
  await mine.settled();
  expect(mine.state.value).toEqual({ other: kept.get('one') });
  type(mine, 'mine too');
  const id = await mine.keepBoth();
  expect(titleOf(kept.get('one')?.value)).toBe('theirs');
  expect(titleOf(kept.get(id)?.value as Json)).toBe('mine too');
});

test('what is typed at the same place after a pause is a step of its own', () => {
  const { made, clock } = desk();
  const draft = createDraft(made, FIRST);
  type(draft, 'Tarn');
  clock.at += 60_000;
  draft.put('/title', 'Tarn 46');
  draft.undo();
  expect(titleOf(draft.value.value)).toBe('Tarn');
  draft.undo();
  expect(draft.value.value).toEqual(FIRST.value);
});

test('a name that came from words is taken back with them', () => {
  const { made } = desk();
  const draft = createDraft(made, FIRST);
  type(draft, 'Tarn');
  draft.change('Name in the file', [{ path: '/id', before: undefined, after: 'tarn' }], 'along');
  expect(draft.undo()).toBe('/title');
  expect(draft.value.value).toEqual(FIRST.value);
  draft.redo();
  expect(draft.value.value).toEqual({ title: 'Tarn', limits: [], id: 'tarn' });
});

test('what goes with the draft is taken back and done again with the step that changed it', async () => {
  const { kept, made } = desk();
  const draft = createDraft(made, FIRST);
  draft.putSide('sheet', { ticked: 3 });
  draft.change('Applied', [{ path: '/title', before: '', after: 'B' }], { side: 'sheet', value: undefined });
  expect(draft.side.value).toEqual({});
  draft.undo();
  expect(draft.side.value).toEqual({ sheet: { ticked: 3 } });
  draft.redo();
  await draft.settled();
  expect(kept.get('one')?.side).toEqual({});
});
