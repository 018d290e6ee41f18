import { fnv1a } from './hash.ts';

/** A seeded source of numbers in [0, 1): the core never rolls a die itself. */
export type Random = () => number;

/**
 * Small fast counter generator (sfc32, public domain, Chris Doty-Humphrey's PractRand).
 * @param seed any 32-bit integer, or text, which is hashed
 */
export function seeded(seed: number | string): Random {
  let a = typeof seed === 'string' ? fnv1a(seed) : seed >>> 0;
  let b = 0x9e3779b9;
  let c = 0x243f6a88;
  let d = 1;
  const next = (): number => {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
    return (t >>> 0) / 4294967296;
  };
  for (let i = 0; i < 12; i++) next();
  return next;
}

/** Whole number in [0, n). n ≥ 1. */
export const below = (random: Random, n: number): number => Math.floor(random() * n);

/** Fisher–Yates; a new array. */
export function shuffled<T>(random: Random, list: readonly T[]): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = below(random, i + 1);
    const x = out[i] as T;
    out[i] = out[j] as T;
    out[j] = x;
  }
  return out;
}
