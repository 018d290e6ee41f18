import type { Json } from '../../lib/canonical-json.ts';
import { foldText } from '../../lib/fold-text.ts';
import type { Procedure } from '../../model/deck.ts';
import type { ItemKey } from '../../model/item.ts';
import type { ViewContext } from '../context.ts';
import { withLabels } from '../fill.ts';
import type { ListItems } from '../resolved.ts';
import { holds } from '../when.ts';
import { asksOrder, LISTS_LEAST, tellsCall } from './words.ts';

/** What is asked of a list as a whole: the words that call for it, who says them, and when it is called for. */
export function listItems(context: ViewContext, procedure: Procedure): ListItems {
  const { things, leftOut } = context;
  const { id, title, called, calledBy, starts, critical } = procedure;
  const item = (facet: keyof ListItems, meaning: Json, label: string): ItemKey | null =>
    leftOut.has(facet)
      ? null
      : context.register({
          thing: id,
          facet,
          facetKey: facet,
          meaning,
          group: id,
          groupKind: 'procedure',
          critical: critical ?? false,
          label,
        });
  const timed = (things.deck.procedures ?? []).filter(
    (p) => !asksOrder(p) && p.starts !== undefined && holds(p.when, context.pick, context.axes) === true,
  );
  return {
    cue:
      starts === undefined || timed.length < LISTS_LEAST
        ? null
        : item('cue', { starts: foldText(starts) }, `When it is called for: ${title}`),
    words:
      called === undefined ? null : item('words', { called: foldText(called) }, callLabel(context, procedure, called)),
    crew: calledBy === undefined ? null : item('crew', { calledBy }, `Who calls for it: ${title}`),
  };
}

/** Most lists are called for by their title: then the label says when, and where that tells it too, which list it is. */
function callLabel({ things }: ViewContext, { title, starts = '', id }: Procedure, called: string): string {
  if (!tellsCall(called, title)) return `Call for: ${title}`;
  if (starts !== '' && !tellsCall(called, starts)) return `Call for a list: ${withLabels(things.deck, starts)}`;
  return `Call for list ${(things.deck.procedures ?? []).filter((p) => !asksOrder(p)).findIndex((p) => p.id === id) + 1}`;
}
