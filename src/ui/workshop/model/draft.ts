import { batch, computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Change, put, valueAt } from '../../../draft/change.ts';
import { doStep, type History, NO_HISTORY, redo, undo } from '../../../draft/history.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { Drafts, StoredDraft } from '../../../model/ports.ts';
import type { Device } from '../../device.ts';

export type SaveState = 'saved' | 'saving' | { readonly problem: string } | { readonly other: StoredDraft | null };

/** The draft that is open: what is typed, what can be taken back, and whether it is safely kept. */
export interface DraftModel {
  readonly id: string;
  readonly made: number;
  /** JSON in the shape of a deck, perhaps not yet a right one. */
  readonly value: ReadonlySignal<Json>;
  /** The revision that it began from, `<deck id>@<16 hex>`. */
  readonly base: ReadonlySignal<string | null>;
  /** What stands at a pointer now. */
  at(path: string): Json | undefined;
  /**
   * One step that can be taken back. `typing`: joins the one before where that was typing at the same place; `along`:
   * is taken back with the one before. `side`: what changes with it of what goes with the draft, and is taken back too.
   * @throws RangeError where a change does not fit
   */
  change(
    label: string,
    changes: readonly Change[],
    how?: 'typing' | 'along' | { readonly side: string; readonly value: unknown },
  ): void;
  /** Sets or (undefined) removes what stands at a pointer; typing in one field is one step. */
  put(path: string, value: Json | undefined, label?: string): void;
  /** @returns where something is other now; null where there was nothing to do */
  undo(): string | null;
  redo(): string | null;
  /** What would be taken back, or done again; null: nothing. */
  readonly undoes: ReadonlySignal<string | null>;
  readonly redoes: ReadonlySignal<string | null>;
  /** What goes with the draft and not into the deck. */
  readonly side: ReadonlySignal<Readonly<Record<string, unknown>>>;
  putSide(key: string, value: unknown): void;
  readonly state: ReadonlySignal<SaveState>;
  /** Writes what could not be written. */
  retry(): void;
  /** Another tab was faster: what is here is kept beside it as a draft of its own. @returns its id */
  keepBoth(): Promise<string>;
  /** Resolves when what was changed so far is written, or could not be. */
  settled(): Promise<void>;
}

/** A new id for a draft: 64 random bits in base 36. */
export const draftId = (seed: () => number): string =>
  (BigInt(seed()) * 2n ** 32n + BigInt(seed())).toString(36).padStart(13, '0');

/** Where a draft is kept, and what tells time. */
export interface Desk {
  readonly store: { readonly drafts: Drafts };
  readonly device: Pick<Device, 'now' | 'seed'>;
}

export const createDraft = ({ store, device }: Desk, stored: StoredDraft): DraftModel => {
  const value = signal(stored.value as Json);
  const history = signal((stored.history as History | null) ?? NO_HISTORY);
  const side = signal(stored.side);
  const base = signal(stored.base);
  const state = signal<SaveState>('saved');
  /** As it is stored. */
  let { seq } = stored;
  let writing: Promise<void> | null = null;
  let changed = false;

  /** The draft as it is now, to be stored. */
  const record = (of: Pick<StoredDraft, 'id' | 'seq' | 'made'>): StoredDraft => ({
    ...of,
    changed: device.now(),
    value: value.peek(),
    history: history.peek(),
    side: side.peek(),
    base: base.peek(),
  });
  const write = async (): Promise<void> => {
    while (changed) {
      changed = false;
      const next = record({ id: stored.id, seq: seq + 1, made: stored.made });
      try {
        const put = await store.drafts.put(next, seq);
        if (put !== 'kept') {
          state.value = { other: put.there };
          return;
        }
        seq = next.seq;
      } catch (error) {
        state.value = { problem: error instanceof Error ? error.message : String(error) };
        return;
      }
    }
    state.value = 'saved';
  };
  const save = (): void => {
    changed = true;
    if (typeof state.peek() === 'object' && 'other' in (state.peek() as object)) return;
    state.value = 'saving';
    writing ??= write().finally(() => {
      writing = null;
      // Changed between the last look and now.
      if (changed && state.peek() === 'saving') save();
    });
  };
  const setSide = (key: string, next: unknown): void => {
    const { [key]: _before, ...rest } = side.peek();
    side.value = next === undefined ? rest : { ...rest, [key]: next };
  };
  const now = () => ({ value: value.peek(), history: history.peek() });
  const take = (next: { readonly value: Json; readonly history: History }): void => {
    value.value = next.value;
    history.value = next.history;
  };
  const change: DraftModel['change'] = (label, changes, how) => {
    if (changes.length === 0 && typeof how !== 'object') return;
    const step = { label, changes };
    batch(() => {
      if (how === 'typing') take(doStep(now(), { ...step, typing: device.now() }));
      else if (how === 'along') take(doStep(now(), { ...step, along: true }));
      else if (how === undefined) take(doStep(now(), step));
      else {
        take(doStep(now(), { ...step, side: { key: how.side, before: side.peek()[how.side], after: how.value } }));
        setSide(how.side, how.value);
      }
    });
    save();
  };
  const back = (how: 'undo' | 'redo'): string | null => {
    const next = how === 'undo' ? undo(now()) : redo(now());
    const step = (how === 'undo' ? history.peek().past : history.peek().future).at(-1);
    if (next === null || step === undefined) return null;
    batch(() => {
      take(next);
      if (step.side !== undefined) setSide(step.side.key, how === 'undo' ? step.side.before : step.side.after);
    });
    save();
    return step.changes[0]?.path ?? null;
  };

  return {
    id: stored.id,
    made: stored.made,
    value,
    base,
    at: (path) => valueAt(value.value, path),
    change,
    put: (path, next, label = 'Typing') => {
      const made = put(value.peek(), path, next);
      if (made.before !== made.after) change(label, [made], 'typing');
    },
    undo: () => back('undo'),
    redo: () => back('redo'),
    undoes: computed(() => history.value.past.at(-1)?.label ?? null),
    redoes: computed(() => history.value.future.at(-1)?.label ?? null),
    side,
    putSide: (key, next) => {
      setSide(key, next);
      save();
    },
    state,
    retry: save,
    keepBoth: async () => {
      const copy = record({ id: draftId(() => device.seed()), seq: 1, made: device.now() });
      await store.drafts.put(copy, 0);
      return copy.id;
    },
    settled: async () => {
      while (writing !== null) await writing;
    },
  };
};
