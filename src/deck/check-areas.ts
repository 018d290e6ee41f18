import { PLAN_HEIGHT, PLAN_WIDTH } from '../model/deck.ts';
import { type Checking, checkText, MOST } from '../subjects/check.ts';
import { at } from '../subjects/finding.ts';

/** The plan of the flight deck: each area is called otherwise, is seen, and lies on the plan. */
export function checkAreas(c: Checking): void {
  const seen = new Set<string>();
  (c.deck.areas ?? []).forEach(({ label, x, y, width, height }, i) => {
    const path = at('/areas', i);
    checkText(c, label, at(path, 'label'), MOST.label, new Map());
    if (seen.has(label)) c.add('name-twice', at(path, 'label'), { name: label });
    seen.add(label);
    if (width === 0 || height === 0) c.add('area-empty', at(path, width === 0 ? 'width' : 'height'), { label });
    else if (x + width > PLAN_WIDTH || y + height > PLAN_HEIGHT)
      c.add('area-outside', at(path, x + width > PLAN_WIDTH ? 'width' : 'height'), {
        label,
        wide: PLAN_WIDTH,
        high: PLAN_HEIGHT,
      });
  });
}
