/** Lines and dots that tell rules apart without colour; each within 8 × 8. */
const SHAPES: readonly string[] = [
  'M0 8 8 0M-2 2 2-2M6 10 10 6',
  'M4 3v2M3 4h2',
  'M0 4h8',
  'M4 0v8',
  'M0 0 8 8M-2 6 2 10M6-2 10 2',
  '',
  'M0 4h8M4 0v8',
  'M0 0 8 8M0 8 8 0',
  'M1 1h3v3h-3z',
  'M0 2h8M0 6h8',
];

const shapeOf = (rule: number): string => SHAPES[rule % SHAPES.length] ?? '';

/** For the drawings below that fill with `fillOf(id, rule)`. */
export function Patterns({ id, rules }: { readonly id: string; readonly rules: number }) {
  return (
    <defs>
      {Array.from({ length: Math.min(rules, SHAPES.length) }, (_, rule) => (
        <pattern key={rule} id={`${id}-${rule}`} width="8" height="8" patternUnits="userSpaceOnUse">
          <rect class="paper" width="8" height="8" />
          <path class="hatch" d={shapeOf(rule)} />
        </pattern>
      ))}
    </defs>
  );
}

export const fillOf = (id: string, rule: number): string => `url(#${id}-${rule % SHAPES.length})`;

/** The same pattern beside words. */
export function Swatch({ rule }: { readonly rule: number }) {
  return (
    <svg class="swatch" viewBox="0 0 24 24" aria-hidden="true">
      <rect class="paper cell" width="24" height="24" />
      {[0, 8, 16].flatMap((x) =>
        [0, 8, 16].map((y) => (
          <path key={`${x} ${y}`} class="hatch" transform={`translate(${x} ${y})`} d={shapeOf(rule)} />
        )),
      )}
    </svg>
  );
}
