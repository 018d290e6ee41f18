/** A scanner of JSON (RFC 8259) that knows where it is. Engines say differently what ails a text, or nothing. */
import type { Args, Code } from '../subjects/finding.ts';

/** 2 MB of UTF-8. */
export const MOST_BYTES = 2_000_000;
/** Levels of lists and objects. */
const MOST_LEVELS = 32;

export interface Trouble {
  readonly code: Code;
  readonly args: Args;
  /** Offset in the text, UTF-16 units from 0. */
  readonly at: number;
}

const SPACE = /[ \t\n\r]*/y;
const NUMBER = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const WORD = /true|false|null/y;
const FORBIDDEN: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

class Fault extends Error {
  readonly trouble: Trouble;
  constructor(code: Code, at: number, args: Args = {}) {
    super(code);
    this.trouble = { code, at, args };
  }
}

/** Told of every value: its keys from the root, and where it starts. `keys` changes afterwards: copy what is kept. */
export type Visit = (keys: readonly (string | number)[], at: number) => void;

/**
 * The first thing wrong with a text as JSON, in one pass and without building anything; null where all is well.
 * Levels are counted as they open, so that a text of brackets is refused at once.
 */
export function scan(text: string, visit?: Visit): Trouble | null {
  try {
    const s = new Scanner(text, visit);
    s.space();
    s.value();
    s.space();
    if (s.at < text.length) s.expected('end');
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.trouble;
    throw error;
  }
}

class Scanner {
  at = 0;
  readonly #text: string;
  readonly #visit: Visit | undefined;
  readonly #keys: (string | number)[] = [];

  constructor(text: string, visit: Visit | undefined) {
    this.#text = text;
    this.#visit = visit;
  }

  #take(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.#text)?.[0];
    if (found !== undefined) this.at += found.length;
    return found;
  }
  #sign(sign: string): boolean {
    if (this.#text[this.at] !== sign) return false;
    this.at += 1;
    return true;
  }
  space(): void {
    this.#take(SPACE);
  }
  expected(what: string): never {
    throw new Fault('unreadable', this.at, { what, found: this.#text[this.at] ?? '' });
  }

  value(): void {
    this.#visit?.(this.#keys, this.at);
    const first = this.#text[this.at];
    if (first === '{' || first === '[') {
      if (this.#keys.length >= MOST_LEVELS) throw new Fault('too-deep', this.at, { most: MOST_LEVELS });
      this.at += 1;
      if (first === '{') this.#members();
      else this.#entries();
    } else if (first === '"') this.#string();
    else if (this.#take(WORD) === undefined) this.#number();
  }

  #number(): void {
    const { at } = this;
    const found = this.#take(NUMBER);
    if (found === undefined) this.expected('value');
    if (!Number.isFinite(Number(found))) throw new Fault('number-size', at, { found: found.slice(0, 20) });
  }

  /** A loop: on a string of a megabyte a pattern would run out of stack. */
  #string(): string {
    const start = this.at++;
    for (;;) {
      const c = this.#text.charCodeAt(this.at);
      if (Number.isNaN(c)) this.expected('quote');
      if (c < 0x20) this.expected('string');
      if (c === 0x5c) {
        if (this.#take(ESCAPE) === undefined) this.expected('escape');
        continue;
      }
      this.at += 1;
      if (c === 0x22) return this.#text.slice(start, this.at);
    }
  }

  #members(): void {
    const seen = new Set<string>();
    this.space();
    if (this.#sign('}')) return;
    do {
      this.space();
      const { at } = this;
      if (this.#text[at] !== '"') this.expected('key');
      const key = JSON.parse(this.#string()) as string;
      if (FORBIDDEN.has(key)) throw new Fault('key-forbidden', at, { key });
      if (seen.has(key)) throw new Fault('key-twice', at, { key: key.slice(0, 60) });
      seen.add(key);
      this.space();
      if (!this.#sign(':')) this.expected(':');
      this.#inside(key);
    } while (this.#sign(','));
    if (!this.#sign('}')) this.expected('}');
  }

  #entries(): void {
    this.space();
    if (this.#sign(']')) return;
    let i = 0;
    do this.#inside(i++);
    while (this.#sign(','));
    if (!this.#sign(']')) this.expected(']');
  }

  #inside(key: string | number): void {
    this.space();
    this.#keys.push(key);
    this.value();
    this.#keys.pop();
    this.space();
  }
}

/** Line and column of an offset, both from 1. */
export function placeOf(text: string, at: number): { readonly line: number; readonly column: number } {
  const lines = text.slice(0, at).split(/\r\n|\r|\n/);
  return { line: lines.length, column: (lines.at(-1) as string).length + 1 };
}

/** Bytes of a text in UTF-8, counted no further than is needed to see that they are too many. */
export function bytesOf(text: string, most: number): number {
  if (text.length > most) return text.length;
  let bytes = text.length;
  for (let i = 0; i < text.length && bytes <= most; i++) {
    const c = text.charCodeAt(i);
    // Half of a pair counts two: four bytes a pair.
    if (c > 0x7f) bytes += c < 0x800 || (c >= 0xd800 && c < 0xe000) ? 1 : 2;
  }
  return bytes;
}
