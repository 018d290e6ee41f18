import type { RefObject } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { type Place, placeOf } from '../../../draft/nodes.ts';

/** Movement below this is a tap, px. */
const SLACK = 6;
/** So near to the edge of what is seen the page scrolls along, px; below stands the bar. */
const EDGE = { top: 70, bottom: 130 } as const;
const SCROLL = 12;

/** Where it would be dropped: beside a row, or at the end of a list. */
export interface Drop extends Place {
  /** Pointer of the node beside, or of the list. */
  readonly beside: string;
  readonly side: 'before' | 'after' | 'end';
}

interface Held {
  readonly path: string;
  readonly pointer: number;
  readonly x: number;
  readonly y: number;
  /** Where it would be dropped now; undefined: it was not moved yet. */
  drop?: Drop | null;
}

/** How far a point is from a box, px squared. */
const away = ({ left, right, top, bottom }: DOMRect, x: number, y: number): number =>
  Math.max(left - x, 0, x - right) ** 2 + Math.max(top - y, 0, y - bottom) ** 2;

/**
 * Dragging a step by its number, as an extra beside the buttons (WCAG 2.2, 2.5.7 Dragging Movements). Rows carry
 * `data-row`, the ends of lists `data-end`; the line holds the pointer.
 */
export const useLineDrag = (
  line: RefObject<HTMLElement | null>,
  onDrop: (path: string, to: Place) => void,
  onTap: (path: string) => void,
) => {
  const held = useRef<Held | null>(null);
  const [now, setNow] = useState<{ readonly path: string; readonly drop: Drop | null } | null>(null);
  const dropAt = (path: string, x: number, y: number): Drop | null => {
    let best: { readonly element: HTMLElement; readonly distance: number } | null = null;
    for (const element of line.current?.querySelectorAll<HTMLElement>('[data-row], [data-end]') ?? []) {
      const at = element.dataset.row ?? element.dataset.end ?? '';
      if (at === path || at.startsWith(`${path}/`)) continue;
      const distance = away(element.getBoundingClientRect(), x, y);
      if (best === null || distance < best.distance) best = { element, distance };
    }
    if (best === null) return null;
    const { row, end, length } = best.element.dataset;
    if (end !== undefined) return { list: end, index: Number(length), beside: end, side: 'end' };
    const place = row === undefined ? null : placeOf(row);
    if (place === null || row === undefined) return null;
    const { top, height } = best.element.getBoundingClientRect();
    // The head of a block leads into the list around it: behind it is in the block, where its own rows are.
    const after = y > top + height / 2 && best.element.dataset.head === undefined;
    return { list: place.list, index: place.index + (after ? 1 : 0), beside: row, side: after ? 'after' : 'before' };
  };
  const end = () => {
    held.current = null;
    setNow(null);
  };
  return {
    now,
    handle: (path: string) => ({
      onPointerDown: (event: PointerEvent) => {
        if (event.button !== 0) return;
        held.current = { path, pointer: event.pointerId, x: event.clientX, y: event.clientY };
        line.current?.setPointerCapture(event.pointerId);
      },
    }),
    line: {
      onPointerMove: ({ pointerId, clientX, clientY }: PointerEvent) => {
        const one = held.current;
        if (one?.pointer !== pointerId) return;
        if (one.drop === undefined && Math.hypot(clientX - one.x, clientY - one.y) < SLACK) return;
        one.drop = dropAt(one.path, clientX, clientY);
        setNow({ path: one.path, drop: one.drop });
        if (clientY < EDGE.top) scrollBy(0, -SCROLL);
        if (clientY > innerHeight - EDGE.bottom) scrollBy(0, SCROLL);
      },
      onPointerUp: ({ pointerId }: PointerEvent) => {
        const one = held.current;
        if (one?.pointer !== pointerId) return;
        // As it was at the last move, which may not be drawn yet.
        if (one.drop === undefined) onTap(one.path);
        else if (one.drop !== null) onDrop(one.path, one.drop);
        end();
      },
      onPointerCancel: end,
      onLostPointerCapture: end,
    },
  };
};
export type LineDrag = ReturnType<typeof useLineDrag>;
