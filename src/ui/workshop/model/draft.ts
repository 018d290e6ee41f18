import { batch, computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Change, put, valueAt } from '../../../draft/change.ts';
import { doStep, type History, NO_HISTORY, redo, type Step, undo } from '../../../draft/history.ts';
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
   * is taken back with the one before.
   * @throws RangeError where a change does not fit
   */
  change(label: string, changes: readonly Change[], how?: 'typing' | 'along'): void;
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

const sideOf = (stored: StoredDraft): Readonly<Record<string, unknown>> => stored.side;

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
  const side = signal(sideOf(stored));
  const base = signal(stored.base);
  const state = signal<SaveState>('saved');
  /** As it is stored. */
  let { seq } = stored;
  let writing: Promise<void> | null = null;
  let changed = false;

  const write = async (): Promise<void> => {
    while (changed) {
      changed = false;
      const next: StoredDraft = {
        id: stored.id,
        seq: seq + 1,
        made: stored.made,
        changed: device.now(),
        value: value.peek(),
        history: history.peek(),
        side: side.peek(),
        base: base.peek(),
      };
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
  const take = (next: { readonly value: Json; readonly history: History } | null, step?: Step): string | null => {
    if (next === null) return null;
    batch(() => {
      value.value = next.value;
      history.value = next.history;
    });
    save();
    return step?.changes[0]?.path ?? null;
  };
  const now = () => ({ value: value.peek(), history: history.peek() });
  const change: DraftModel['change'] = (label, changes, how) => {
    const step: Step = how === undefined ? { label, changes } : { label, changes, [how]: true };
    if (changes.length > 0) take(doStep(now(), step));
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
    undo: () => take(undo(now()), history.peek().past.at(-1)),
    redo: () => take(redo(now()), history.peek().future.at(-1)),
    undoes: computed(() => history.value.past.at(-1)?.label ?? null),
    redoes: computed(() => history.value.future.at(-1)?.label ?? null),
    side,
    putSide: (key, next) => {
      const { [key]: _before, ...rest } = side.peek();
      side.value = next === undefined ? rest : { ...rest, [key]: next };
      save();
    },
    state,
    retry: save,
    keepBoth: async () => {
      const copy: StoredDraft = {
        id: draftId(() => device.seed()),
        seq: 1,
        made: device.now(),
        changed: device.now(),
        value: value.peek(),
        history: history.peek(),
        side: side.peek(),
        base: base.peek(),
      };
      await store.drafts.put(copy, 0);
      return copy.id;
    },
    settled: async () => {
      while (writing !== null) await writing;
    },
  };
};
