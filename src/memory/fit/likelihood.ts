import { levelOf } from '../fsrs.ts';
import type { History } from './histories.ts';

/**
 * FSRS-6 with its derivative by all 21 weights: how likely what was answered is. src/memory/fsrs.ts says what memory
 * does in the product; this says the same once more (github.com/open-spaced-repetition, wiki "The Algorithm",
 * FSRS-6), since a library without derivatives cannot be fitted, and a property test holds the one to the other.
 */

/** Histories in the form that is fast to go through. */
export interface Flat {
  /** Where each history begins in the lists below; one more: their end. */
  readonly starts: Int32Array;
  readonly gap: Float64Array;
  /** `levelOf` the verdict. */
  readonly level: Int8Array;
  readonly g: Float64Array;
  readonly moves: Uint8Array;
  /** 1: a prediction was made and is scored. */
  readonly scored: Uint8Array;
  /** Effective time, UTC ms. */
  readonly at: Float64Array;
  /** Room for one history. */
  readonly tape: Tape;
}

interface Tape {
  readonly s: Float64Array;
  readonly d: Float64Array;
  readonly r: Float64Array;
  /** Loss by recall chance. */
  readonly lossByR: Float64Array;
}

const MISSED = -2;
const UNSURE = -1;
const FLUENT = 1;
const LOW_S = 0.001;
const HIGH_S = 36_500;
/** The library lets no first stability be less. */
const LOW_FIRST_S = 0.1;
const LOW_D = 1;
const HIGH_D = 10;
/** Nothing is certain: a miss at R = 1 costs 13.8 and not all. */
const SURE = 1e-6;

export const flatten = (histories: readonly History[]): Flat => {
  const n = histories.reduce((sum, one) => sum + one.length, 0);
  const longest = histories.reduce((most, one) => Math.max(most, one.length), 0);
  const flat: Flat = {
    starts: new Int32Array(histories.length + 1),
    gap: new Float64Array(n),
    level: new Int8Array(n),
    g: new Float64Array(n),
    moves: new Uint8Array(n),
    scored: new Uint8Array(n),
    at: new Float64Array(n),
    tape: {
      s: new Float64Array(longest),
      d: new Float64Array(longest),
      r: new Float64Array(longest),
      lossByR: new Float64Array(longest),
    },
  };
  let i = 0;
  for (const [h, history] of histories.entries()) {
    let met = false;
    for (const { gap, verdict, g, moves, counts, at } of history) {
      flat.gap[i] = gap;
      flat.level[i] = levelOf(verdict);
      flat.g[i] = g;
      flat.moves[i] = moves ? 1 : 0;
      // Of the first answer, and of a repeat on the same day, nothing is predicted.
      flat.scored[i] = met && counts && gap > 0 ? 1 : 0;
      flat.at[i] = at;
      met ||= moves;
      i += 1;
    }
    flat.starts[h + 1] = i;
  }
  return flat;
};

/**
 * Log loss (natural logarithm) of scored answers, summed.
 * @param w w0..w20, within their ranges
 * @param from, until effective times: only answers in [from, until) are scored; later ones are left out
 * @param gradient loss by w0..w20, added to; null: not asked
 * @param each told every scored answer: what was predicted, g + (1 - g) R, and whether it was right
 */
export const logLossSum = (
  flat: Flat,
  w: Float64Array,
  from: number,
  until: number,
  gradient: Float64Array | null,
  each?: (predicted: number, right: boolean) => void,
): number => {
  const { starts, gap, level, g, moves, scored, at, tape } = flat;
  const [w4, w5, w6, w7] = [w[4], w[5], w[6], w[7]] as [number, number, number, number];
  const [w9, w10, w11, w12] = [w[9], w[10], w[11], w[12]] as [number, number, number, number];
  const [w13, w14, w15, w16] = [w[13], w[14], w[15], w[16]] as [number, number, number, number];
  const [w17, w18, w19, w20] = [w[17], w[18], w[19], w[20]] as [number, number, number, number];
  const e8 = Math.exp(w[8] as number);
  const e5 = Math.exp(3 * w5);
  const easiest = w4 - e5 + 1;
  const leastLoss = Math.exp(-w17 * w18);
  // 0.9 at t = S whatever the decay: F = 0.9^(-1/w20) - 1.
  const f1 = Math.exp(-Math.log(0.9) / w20);
  const factor = f1 - 1;
  const factorBy20 = (f1 * Math.log(0.9)) / (w20 * w20);
  let loss = 0;

  for (let h = 0; h + 1 < starts.length; h++) {
    const begin = starts[h] as number;
    const stop = starts[h + 1] as number;
    let s = 0;
    let d = 0;
    let i = begin;
    let any = false;
    for (; i < stop; i++) {
      if ((at[i] as number) >= until) break;
      const k = i - begin;
      const t = gap[i] as number;
      const l = level[i] as number;
      const r = s > 0 && t > 0 ? Math.exp(-w20 * Math.log(1 + (factor * t) / s)) : 1;
      tape.s[k] = s;
      tape.d[k] = d;
      tape.r[k] = r;
      tape.lossByR[k] = 0;
      if (scored[i] === 1 && (at[i] as number) >= from) {
        const guess = g[i] as number;
        const plain = guess + (1 - guess) * r;
        const p = Math.min(1 - SURE, Math.max(SURE, plain));
        const right = l !== MISSED;
        loss -= Math.log(right ? p : 1 - p);
        if (p === plain) tape.lossByR[k] = (1 - guess) * (right ? -1 / p : 1 / (1 - p));
        any = true;
        each?.(p, right);
      }
      if (moves[i] !== 1) continue;
      if (s === 0) {
        s = Math.max(w[l + 2] as number, LOW_FIRST_S);
        d = Math.min(HIGH_D, Math.max(LOW_D, w4 - Math.exp((l + 2) * w5) + 1));
        continue;
      }
      let next: number;
      if (t === 0) {
        const held = Math.exp(w17 * (l + w18) - w19 * Math.log(s));
        next = s * (l >= UNSURE ? Math.max(1, held) : held);
      } else if (l === MISSED) {
        const left = w11 * Math.exp(-w12 * Math.log(d) + w14 * (1 - r)) * (Math.exp(w13 * Math.log(s + 1)) - 1);
        next = Math.min(left, s * leastLoss);
      } else {
        const bent = e8 * (11 - d) * Math.exp(-w9 * Math.log(s)) * (l === UNSURE ? w15 : l === FLUENT ? w16 : 1);
        next = s * (1 + bent * (Math.exp(w10 * (1 - r)) - 1));
      }
      s = Math.min(HIGH_S, Math.max(LOW_S, next));
      d = Math.min(HIGH_D, Math.max(LOW_D, w7 * easiest + (1 - w7) * (d - (w6 * l * (10 - d)) / 9)));
    }
    if (gradient === null || !any) continue;

    // Backwards: what the loss of all later answers does to this one's memory.
    let byS = 0;
    let byD = 0;
    const add = (index: number, by: number) => {
      gradient[index] = (gradient[index] as number) + by;
    };
    while (--i >= begin) {
      const k = i - begin;
      const t = gap[i] as number;
      const l = level[i] as number;
      s = tape.s[k] as number;
      d = tape.d[k] as number;
      const r = tape.r[k] as number;
      let byR = tape.lossByR[k] as number;
      if (s === 0) {
        if (moves[i] !== 1) continue;
        if ((w[l + 2] as number) > LOW_FIRST_S) add(l + 2, byS);
        const e = Math.exp((l + 2) * w5);
        const first = w4 - e + 1;
        if (first > LOW_D && first < HIGH_D) {
          add(4, byD);
          add(5, -byD * (l + 2) * e);
        }
        // Answers before it did not move memory and were not predicted.
        break;
      }
      if (moves[i] === 1) {
        const to = byS;
        const step = (w6 * l) / 9;
        const damped = d - step * (10 - d);
        const raw = w7 * easiest + (1 - w7) * damped;
        let toD = 0;
        if (raw > LOW_D && raw < HIGH_D) {
          toD = byD * (1 - w7) * (1 + step);
          add(4, byD * w7);
          add(5, -byD * w7 * 3 * e5);
          add(6, (-byD * (1 - w7) * l * (10 - d)) / 9);
          add(7, byD * (easiest - damped));
        }
        byD = toD;
        if (t === 0) {
          const held = Math.exp(w17 * (l + w18) - w19 * Math.log(s));
          if (l >= UNSURE && held <= 1) byS = to;
          else if (s * held <= LOW_S || s * held >= HIGH_S) byS = 0;
          else {
            byS = to * held * (1 - w19);
            add(17, to * s * held * (l + w18));
            add(18, to * s * held * w17);
            add(19, -to * s * held * Math.log(s));
          }
        } else if (l === MISSED) {
          const lnD = Math.log(d);
          const power = Math.exp(w13 * Math.log(s + 1));
          const scale = w11 * Math.exp(-w12 * lnD + w14 * (1 - r));
          const left = scale * (power - 1);
          const most = s * leastLoss;
          if (Math.min(left, most) <= LOW_S) byS = 0;
          else if (left <= most) {
            byS = (to * scale * w13 * power) / (s + 1);
            byD -= (to * w12 * left) / d;
            byR -= to * w14 * left;
            add(11, (to * left) / w11);
            add(12, -to * left * lnD);
            add(13, to * scale * power * Math.log(s + 1));
            add(14, to * left * (1 - r));
          } else {
            byS = to * leastLoss;
            add(17, -to * w18 * most);
            add(18, -to * w17 * most);
          }
        } else {
          const lnS = Math.log(s);
          const plain = e8 * (11 - d) * Math.exp(-w9 * lnS);
          const bent = plain * (l === UNSURE ? w15 : l === FLUENT ? w16 : 1);
          const e = Math.exp(w10 * (1 - r));
          const grown = s * bent * (e - 1);
          if (s + grown >= HIGH_S) byS = 0;
          else {
            byS = to * (1 + bent * (e - 1) * (1 - w9));
            byD -= (to * grown) / (11 - d);
            byR -= to * s * bent * w10 * e;
            add(8, to * grown);
            add(9, -to * grown * lnS);
            add(10, to * s * bent * e * (1 - r));
            if (l === UNSURE) add(15, to * s * plain * (e - 1));
            else if (l === FLUENT) add(16, to * s * plain * (e - 1));
          }
        }
      }
      if (byR !== 0 && t > 0) {
        const u = 1 + (factor * t) / s;
        byS += (byR * r * w20 * factor * t) / (s * s * u);
        add(20, byR * r * (-Math.log(u) - (w20 * t * factorBy20) / (s * u)));
      }
    }
  }
  return loss;
};
