import type { RefObject } from 'preact';
import { useRef, useState } from 'preact/hooks';

/** Movement below this is a tap, px. */
const SLACK = 6;
/** So near to the edge of what is seen the page scrolls along, px; below stands the bar. */
const EDGE = { top: 70, bottom: 170 } as const;
const SCROLL = 12;

interface Held {
  readonly id: string;
  readonly pointer: number;
  readonly y: number;
}
export interface Dragged {
  readonly id: string;
  /** Place from 0 at which it would be dropped. */
  readonly to: number;
}

/**
 * Dragging a row by its number, as an extra beside the buttons (WCAG 2.2, 2.5.7 Dragging Movements). The list holds
 * the pointer, because the row itself is put elsewhere while it is dragged; rows carry `data-step`.
 * @param onDrop id of the row, its new place from 0
 */
export const useDrag = (
  list: RefObject<HTMLElement | null>,
  disabled: boolean,
  onDrop: (id: string, to: number) => void,
) => {
  const held = useRef<Held | null>(null);
  const [now, setNow] = useState<Dragged | null>(null);
  const placeAt = (id: string, y: number): number =>
    [...(list.current?.querySelectorAll<HTMLElement>('[data-step]') ?? [])].filter((row) => {
      const { top, height } = row.getBoundingClientRect();
      return row.dataset.step !== id && top + height / 2 < y;
    }).length;
  const end = () => {
    held.current = null;
    setNow(null);
  };
  return {
    now,
    handle: (id: string) => ({
      onPointerDown: (event: PointerEvent) => {
        if (disabled || event.button !== 0) return;
        held.current = { id, pointer: event.pointerId, y: event.clientY };
        list.current?.setPointerCapture(event.pointerId);
      },
    }),
    list: {
      onPointerMove: ({ pointerId, clientY }: PointerEvent) => {
        const one = held.current;
        if (one?.pointer !== pointerId || (now === null && Math.abs(clientY - one.y) < SLACK)) return;
        const to = placeAt(one.id, clientY);
        if (now?.to !== to) setNow({ id: one.id, to });
        if (clientY < EDGE.top) scrollBy(0, -SCROLL);
        if (clientY > innerHeight - EDGE.bottom) scrollBy(0, SCROLL);
      },
      onPointerUp: ({ pointerId }: PointerEvent) => {
        if (held.current?.pointer !== pointerId) return;
        if (now !== null) onDrop(now.id, now.to);
        end();
      },
      onPointerCancel: end,
      onLostPointerCapture: end,
    },
  };
};
