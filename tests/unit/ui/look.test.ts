import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const SRC = new URL('../../../src/', import.meta.url);
const sheets = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.css'))
  .map((name) => ({ name, text: readFileSync(new URL(name, SRC), 'utf8').replaceAll(/\/\*[\s\S]*?\*\//g, '') }));
const textOf = (name: string): string => sheets.find((one) => one.name === name)?.text ?? '';
const base = textOf('ui/base.css');

interface Declared {
  readonly file: string;
  readonly selector: string;
  /** Conditions around it: media queries. */
  readonly within: string;
  readonly name: string;
  readonly value: string;
}

/** Every declaration of a sheet with the rule that holds it. */
const declared = ({ name: file, text }: (typeof sheets)[number]): Declared[] => {
  const found: Declared[] = [];
  const open: string[] = [];
  let since = 0;
  for (const { 0: mark, index } of text.matchAll(/[{};]/g)) {
    const words = text.slice(since, index).trim();
    since = index + 1;
    if (mark === '{') open.push(words);
    else {
      const colon = words.indexOf(':');
      if (colon > 0)
        found.push({
          file,
          selector: open.at(-1) ?? '',
          within: open.slice(0, -1).join(' '),
          name: words.slice(0, colon).trim(),
          value: words.slice(colon + 1).trim(),
        });
      if (mark === '}') open.pop();
    }
  }
  return found;
};

/** The page of linked decks and paper bring their own values: the one loads nothing of the app, the other has no theme. */
const all = sheets
  .filter(({ name }) => name.startsWith('ui/') && name !== 'ui/base.css')
  .flatMap(declared)
  .filter(({ within, selector }) => !/print/.test(within) && !/print/.test(selector));
const departing = (names: RegExp, allowed: RegExp, except: (one: Declared) => boolean = () => false): string[] =>
  all
    .filter((one) => names.test(one.name) && !allowed.test(one.value) && !except(one))
    .map(({ file, selector, name, value }) => `${file}: ${selector} { ${name}: ${value} }`);

test('letters come in the sizes and weights of the rules; in a drawing they are of its own units', () => {
  expect(all.length).toBeGreaterThan(200);
  expect(
    departing(/^font-size$/, /^(var\(--font-[a-z]+\)|inherit|[\d.]+em)$/, (one) => /text\b/.test(one.selector)),
  ).toEqual([]);
  expect(departing(/^font-weight$/, /^(var\(--bold\)|400)$/)).toEqual([]);
  expect(departing(/^(font|font-family)$/, /^(inherit|ui-monospace, monospace)$/)).toEqual([]);
});

/** A camera reads black on white. */
const isCode = ({ selector }: Declared): boolean => selector === '.qr';

test('colours have a role, and corners are as those of a ruled box', () => {
  expect(departing(/./, /^(?!.*(#[\da-f]{3,8}\b|\b(rgb|hsl|oklch|lab)a?\())/is, isCode)).toEqual([]);
  expect(departing(/^border-radius$/, /^(0|50%|var\(--radius\))$/)).toEqual([]);
});

test('nothing moves by itself, and what gives way does so only where motion is welcome', () => {
  const moving = sheets
    .flatMap(declared)
    .filter(({ name }) => /^(transition|animation|translate|scroll-behavior)/.test(name));
  expect(moving.length).toBeGreaterThan(0);
  for (const { within, selector } of moving)
    expect(within, selector).toContain('prefers-reduced-motion: no-preference');
});

/** Relative luminance (WCAG 2.2), 0 to 1, of #rrggbb. */
const luminance = (hex: string): number => {
  const parts = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (parts[0] ?? 0) + 0.7152 * (parts[1] ?? 0) + 0.0722 * (parts[2] ?? 0);
};
/** Contrast ratio (WCAG 2.2), 1 to 21. */
const contrast = (a: string, b: string): number => {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
};
const roles = new Map(
  [...base.matchAll(/--([\w-]+): light-dark\((#[\da-f]{6}), (#[\da-f]{6})\)/g)].map((found) => [
    found[1] ?? '',
    { light: found[2] ?? '', dark: found[3] ?? '' },
  ]),
);

test.each(['light', 'dark'] as const)('text is read on paper and panel, 4.5 to 1, %s (WCAG 2.2, 1.4.3)', (theme) => {
  // Black on white is 21, as the standard says: the formula is that of the standard.
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
  const of = (role: string): string => roles.get(role)?.[theme] ?? '';
  for (const paper of ['ground', 'panel'])
    for (const ink of ['ink', 'ink-soft', 'accent', 'good', 'bad', 'warn'])
      expect(contrast(of(ink), of(paper)), `${ink} on ${paper}`).toBeGreaterThanOrEqual(4.5);
  expect(contrast(of('accent-ink'), of('accent'))).toBeGreaterThanOrEqual(4.5);
});

test('the page of linked decks, which shares no file with the app, has the same colours', () => {
  const known = new Set([...roles.values()].map(({ light, dark }) => `${light} ${dark}`));
  const used = [...textOf('app/open.css').matchAll(/light-dark\((#[\da-f]+), (#[\da-f]+)\)/g)];
  expect(used.length).toBeGreaterThan(3);
  for (const [, light = '', dark = ''] of used)
    expect(known).toContain(`${light.replace('#fff', '#ffffff').slice(0, 7)} ${dark}`);
});
