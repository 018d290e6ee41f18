import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { type Change, insert, valueAt } from '../../../draft/change.ts';
import type { Span } from '../../../draft/lanes.ts';
import { moveLettingGo } from '../../../draft/letting-go.ts';
import { blankStep, type Place, pathOf, placeOf, stepPath, textOf } from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList } from '../../../lib/json.ts';
import type { DraftModel } from '../model/draft.ts';
import { nodeWords, whereWords } from './words.ts';

/** Where the focus goes after a change: to the words of a step, to a tool under it, into its form. */
export type Focus = 'words' | 'form' | { readonly tool: string };

export interface LineModel {
  readonly draft: DraftModel;
  /** Pointer. */
  readonly procedure: string;
  /** Pointer of the node whose tools and form are shown. */
  readonly open: ReadonlySignal<string | null>;
  /** So many neighbours from the open one on are marked, itself among them. */
  readonly marked: Signal<number>;
  /** For those who do not see what moved. */
  readonly said: Signal<string>;
  /** Taken by the page when it is drawn. */
  readonly focus: Signal<{ readonly path: string; readonly on: Focus } | null>;
  show(path: string | null): void;
  /** Does a change, and shows what came of it. @param to pointer after the change, or the very object */
  act(
    label: string,
    changes: readonly Change[],
    to: string | { readonly node: Json } | null,
    focus?: Focus,
    say?: string,
  ): void;
  move(path: string, to: Place | null, focus: Focus): void;
}

/** After a move, where an order was confirmed that it contradicts. */
export const LET_GO = 'The order you confirmed no longer fits and was let go of.';

/** What is open in one procedure's line. */
export const createLine = (draft: DraftModel, procedure: string): LineModel => {
  const shown = signal<{ readonly path: string; readonly id: string } | null>(null);
  const marked = signal(1);
  const said = signal('');
  const focus = signal<LineModel['focus']['value']>(null);
  const idAt = (path: string): string => textOf(draft.at(path), 'id');
  // Undoing, or a change elsewhere, may put the open step to another place.
  const open = computed(() => {
    const one = shown.value;
    if (one === null) return null;
    if (draft.at(one.path) !== undefined && (one.id === '' || idAt(one.path) === one.id)) return one.path;
    const found = one.id === '' ? null : stepPath(draft.value.value, procedure, one.id);
    return found ?? (draft.at(one.path) === undefined ? null : one.path);
  });
  const show = (path: string | null) => {
    shown.value = path === null ? null : { path, id: idAt(path) };
    marked.value = 1;
  };
  const act: LineModel['act'] = (label, changes, to, on = 'words', say) => {
    if (changes.length === 0) {
      said.value = say ?? 'That cannot be done here.';
      return;
    }
    draft.change(label, changes);
    const doc = draft.value.peek();
    const path = to === null || typeof to === 'string' ? to : pathOf(doc, procedure, to.node);
    show(path);
    if (path !== null) focus.value = { path, on };
    said.value = say ?? `${label}. ${path === null ? '' : whereWords(doc, procedure, path)}`;
  };
  return {
    draft,
    procedure,
    open,
    marked,
    said,
    focus,
    show,
    act,
    move: (path, to, on) => {
      const before = draft.value.peek();
      const moved = to === null ? null : moveLettingGo(before, procedure, path, to);
      if (moved === null || moved.path === null) {
        said.value = `It stays where it is. ${whereWords(before, procedure, path)}`;
        return;
      }
      const shownNode = open.peek() === null ? undefined : draft.at(open.peek() as string);
      const kept = moved.letGo === 0;
      draft.change(kept ? 'Step moved' : `Step moved. ${LET_GO}`, moved.changes);
      const doc = draft.value.peek();
      // What is open stays open, wherever it went.
      const shownAt = open.peek() === path ? moved.path : shownNode && pathOf(doc, procedure, shownNode);
      if (shownAt) show(shownAt);
      focus.value = { path: moved.path, on };
      const words = nodeWords(doc, draft.at(moved.path));
      said.value = `${words}. ${whereWords(doc, procedure, moved.path)}${kept ? '' : `. ${LET_GO}`}`;
    },
  };
};

/** The node at a path with the neighbours behind it that are marked, and how many could be. Reading it follows both. */
export const spanOf = (line: LineModel, path: string): { readonly span: Span; readonly most: number } | null => {
  const place = placeOf(path);
  const list = place === null ? undefined : valueAt(line.draft.value.value, place.list);
  if (place === null || !isList(list)) return null;
  const most = list.length - place.index;
  const count = Math.max(1, Math.min(line.marked.value, most));
  return { span: { list: place.list, from: place.index, to: place.index + count - 1 }, most };
};

/** Puts an empty step beside another. */
export const addBeside = (line: LineModel, path: string, side: 'before' | 'after'): void => {
  const place = placeOf(path);
  if (place === null) return;
  const doc = line.draft.value.peek();
  const index = place.index + (side === 'before' ? 0 : 1);
  line.act('Step added', [insert(place.list, index, blankStep(doc))], `${place.list}/${index}`, 'form');
};
