import { useRef } from 'preact/hooks';

/** Movement below this is a tap, px. */
const SLACK = 10;

interface Dragging {
  readonly id: string;
  readonly pointer: number;
  readonly y: number;
  moved: boolean;
}

/**
 * Dragging a row onto another, as an extra beside the buttons (WCAG 2.2, 2.5.7 Dragging Movements).
 * @param onDrop the row dragged, the row under the finger
 * @returns handlers for a row
 */
export const useDrag = (onDrop: (id: string, onto: string) => void) => {
  const dragging = useRef<Dragging | null>(null);
  const under = (event: PointerEvent): string | undefined =>
    (document.elementFromPoint(event.clientX, event.clientY)?.closest('[data-step]') as HTMLElement | null)?.dataset
      .step;
  return (id: string) => ({
    onPointerDown: (event: PointerEvent) => {
      dragging.current = { id, pointer: event.pointerId, y: event.clientY, moved: false };
    },
    onPointerMove: (event: PointerEvent) => {
      const now = dragging.current;
      if (now?.pointer !== event.pointerId || now.moved || Math.abs(event.clientY - now.y) < SLACK) return;
      now.moved = true;
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
    },
    onPointerUp: (event: PointerEvent) => {
      const now = dragging.current;
      dragging.current = null;
      if (now?.moved !== true) return;
      const onto = under(event);
      if (onto !== undefined && onto !== id) onDrop(id, onto);
    },
    onPointerCancel: () => {
      dragging.current = null;
    },
    // The click after a drag is no tap.
    onClickCapture: (event: MouseEvent) => {
      if (dragging.current?.moved === true) event.stopPropagation();
    },
  });
};
