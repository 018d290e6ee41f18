import type { Json } from '../../../lib/canonical-json.ts';
import type { Members } from '../../../lib/json.ts';
import { type Area, PLAN_HEIGHT, PLAN_WIDTH } from '../../../model/deck.ts';
import { objectsAt } from '../fields/choices.ts';
import type { DraftModel } from '../model/draft.ts';
import '../../parts/panel.css';

/** In hundredths of the plan's width: room for the pen. */
const EDGE = 1;

interface Numbered extends Area {
  /** As the list above numbers it. */
  readonly number: number;
}

const KEYS = ['x', 'y', 'width', 'height'] as const;

/** Areas that can be drawn, as far as they are written. */
export const drawable = (doc: Json): Numbered[] =>
  objectsAt(doc, '/areas').flatMap((one: Members, i) => {
    const [x, y, width, height] = KEYS.map((key) => one[key]);
    const all = [x, y, width, height];
    if (!all.every((n) => typeof n === 'number' && n >= 0 && n <= 2 * PLAN_HEIGHT)) return [];
    const area = { x, y, width, height } as Omit<Area, 'label'>;
    return area.width > 0 && area.height > 0 ? [{ ...area, label: String(one.label ?? ''), number: i + 1 }] : [];
  });

/** The plan of the flight deck as far as it is written, each area with its number; null where nothing can be drawn. */
export function PlanSketch({ draft }: { readonly draft: DraftModel }) {
  const areas = drawable(draft.value.value);
  if (areas.length === 0) return null;
  const high = Math.max(...areas.map(({ y, height }) => y + height));
  const wide = Math.max(PLAN_WIDTH, ...areas.map(({ x, width }) => x + width));
  const said = areas.map(({ number, label }) => `${number} ${label}`).join(', ');
  return (
    <figure class="stack">
      <svg
        class="panel-plan sketch"
        viewBox={`${-EDGE} ${-EDGE} ${wide + 2 * EDGE} ${high + 2 * EDGE}`}
        role="img"
        aria-label={`The plan so far: ${said}`}
      >
        {areas.map(({ number, x, y, width, height }) => (
          <g key={number}>
            <rect x={x} y={y} width={width} height={height} rx="1" />
            <text x={x + 1.2} y={y + 4.6}>
              {number}
            </text>
          </g>
        ))}
      </svg>
      <figcaption class="small soft">The plan so far, each area with its number in the list.</figcaption>
    </figure>
  );
}
