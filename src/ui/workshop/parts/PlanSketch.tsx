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

/** Room that a number takes in a corner, in hundredths of the plan's width. */
const NUMBER = 5;

/** Top left, then bottom left, top right, bottom right. */
const CORNERS = [
  [0, 0],
  [0, 1],
  [1, 0],
  [1, 1],
] as const;

/** The corner for the number of an area: the first in which no other that lies within begins. @returns right, bottom: 0, 1 */
export const cornerOf = (area: Omit<Area, 'label'>, all: readonly Omit<Area, 'label'>[]): readonly [number, number] => {
  const within = all.filter((one) => one !== area && one.width * one.height < area.width * area.height);
  const isFree = ([right, bottom]: readonly [number, number]): boolean => {
    const x = right === 0 ? area.x : area.x + area.width - NUMBER;
    const y = bottom === 0 ? area.y : area.y + area.height - NUMBER;
    return within.every(
      (one) => one.x >= x + NUMBER || one.x + one.width <= x || one.y >= y + NUMBER || one.y + one.height <= y,
    );
  };
  return CORNERS.find(isFree) ?? CORNERS[0];
};

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
        {areas.map((area) => {
          const { number, x, y, width, height } = area;
          const [right, bottom] = cornerOf(area, areas);
          return (
            <g key={number}>
              <rect x={x} y={y} width={width} height={height} rx="1" />
              <text
                x={right === 0 ? x + 1.2 : x + width - 1.2}
                y={bottom === 0 ? y + 4.6 : y + height - 1.2}
                text-anchor={right === 0 ? 'start' : 'end'}
              >
                {number}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption class="small soft">The plan so far, each area with its number in the list.</figcaption>
    </figure>
  );
}
