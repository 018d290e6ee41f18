import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { importComplaints, PURE, purityComplaints } from './rules.ts';
import { importsOf, sources } from './sources.ts';

const src = sources('src');
const isPure = (path: string) => PURE.some((folder) => path.startsWith(`src/${folder}/`));

describe('imports', () => {
  test('go one way, and each package stays in its place', () => {
    expect(src.length).toBeGreaterThan(10);
    expect(importComplaints(src)).toEqual([]);
  });

  test.each([
    ['src/lib/a.ts', "import { b } from '../model/b.ts';"],
    ['src/model/a.ts', "export * from '../formula/b.ts';"],
    ['src/memory/a.ts', "import type { B } from '../forms/b.ts';"],
    ['src/ui/a.tsx', "import { b } from '../store/b.ts';"],
    ['src/ui/a.tsx', "const b = await import('../workers/b.ts');"],
    ['src/store/a.ts', "import { b } from '../ui/b.ts';"],
    ['src/deck/a.ts', "import * as fsrs from 'ts-fsrs';"],
    ['src/memory/a.ts', "import {\n  FSRS,\n  State,\n} from 'ts-fsrs';"],
    ['src/app/a.ts', "import { openDB } from 'idb';"],
    ['src/ui/a.ts', "import 'node:fs';"],
    ['src/ui/a.ts', "new Worker(new URL('../workers/b.ts', import.meta.url), { type: 'module' });"],
    ['src/lib/a.ts', "import { b } from './gone.ts';"],
    ['src/elsewhere/a.ts', ''],
  ])('a complaint about %s: %s', (path, text) => {
    const others = ['model', 'formula', 'forms', 'store', 'workers', 'ui'].map((f) => ({
      path: `src/${f}/b.ts`,
      text: '',
    }));
    expect(importComplaints([{ path, text }, ...others])).toHaveLength(1);
  });

  test('what is in a comment is no import; what is on several lines is one', () => {
    const text =
      "// import { a } from './a.ts';\n/* import './b.ts' */\nimport type {\n  C,\n} from './c.ts';\nimport './d.css';";
    expect(importsOf(text)).toEqual([
      { specifier: './c.ts', typeOnly: true },
      { specifier: './d.css', typeOnly: false },
    ]);
  });
});

describe('pure folders', () => {
  test('read no clock, roll no dice, touch no browser', () => {
    expect(purityComplaints(src.filter(({ path }) => isPure(path)))).toEqual([]);
  });

  test('compile without the types of the browser and of Node', () => {
    const { compilerOptions, include } = JSON.parse(readFileSync(at('tsconfig.pure.json'), 'utf8'));
    expect(compilerOptions).toMatchObject({ lib: ['ES2022'], types: [] });
    expect(include).toEqual(PURE.map((folder) => `src/${folder}`));
  });

  test.each([
    'const now = Date.now();',
    'const now = new Date();',
    'const now = new Date;',
    'const now = Date();',
    'const die = Math.random();',
    'setTimeout(() => 1, 2);',
    'const width = document.body;',
    'localStorage.clear();',
    "await fetch('x');",
    'performance.now();',
    'crypto.randomUUID();',
    "eval('1');",
    "at('http://x'); Date.now();",
  ])('a complaint about %s', (text) => {
    expect(purityComplaints([{ path: 'src/lib/a.ts', text }])).toHaveLength(1);
  });

  test.each([
    'const day = new Date(at);',
    '// Date.now() is not called here',
    'const { at }: { at: Date } = x;',
    'isDate(x);',
    'prefetch(x);',
  ])('none about %s', (text) => {
    expect(purityComplaints([{ path: 'src/lib/a.ts', text }])).toEqual([]);
  });
});
