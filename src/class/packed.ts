import { dayOfIso, isoOfDay } from '../lib/date-words.ts';
import type { ReceivedReport, Report, ReportDeck, ReportItem } from '../model/report.ts';
import type { Packed, PackedDeck } from './types.ts';

const NEVER = -1;
const LEFT_OUT = -2;
const WITH_ALL = -1;

const packDeck = ({ items, ...deck }: ReportDeck): PackedDeck => {
  const verdicts = new Uint32Array(4 * items.length);
  for (const [i, item] of items.entries()) verdicts.set(item.verdicts, 4 * i);
  return {
    ...deck,
    keys: items.map(({ key }) => key).join('\n'),
    now: Float64Array.from(items, ({ now }) => now ?? Number.NaN),
    day: Float64Array.from(items, ({ day }) => day ?? Number.NaN),
    ...(items.some(({ check }) => check !== undefined) && {
      check: Int32Array.from(items, ({ check }) => (check === undefined ? WITH_ALL : (dayOfIso(check) ?? WITH_ALL))),
    }),
    verdicts,
    voids: Uint32Array.from(items, ({ voids }) => voids),
    sureWrong: Int32Array.from(items, ({ sureWrong }) => sureWrong ?? NEVER),
    last: Int32Array.from(items, ({ last }) =>
      last === undefined ? LEFT_OUT : last === null ? NEVER : (dayOfIso(last) ?? NEVER),
    ),
  };
};

/** @param taken UTC ms */
export const pack = ({ report, key, hash }: ReceivedReport, taken: number): Packed => {
  const { recency: _, selfRecorded: __, decks, ...rest } = report;
  return { ...rest, hash, key, taken, decks: decks.map(packDeck) };
};

export const keysOf = ({ keys }: Pick<PackedDeck, 'keys'>): readonly string[] => (keys === '' ? [] : keys.split('\n'));

/** Counts of one item: missed, unsure, sound, fluent. */
export const verdictsOf = ({ verdicts }: Pick<PackedDeck, 'verdicts'>, item: number): Uint32Array =>
  verdicts.subarray(4 * item, 4 * item + 4);

const chance = (value: number | undefined): number | null =>
  value === undefined || Number.isNaN(value) ? null : value;

const unpackDeck = (packed: PackedDeck): ReportDeck => {
  const { keys, now, day, check, verdicts: _, voids, sureWrong, last, ...deck } = packed;
  const items = keysOf(packed).map((key, i): ReportItem => {
    const wrong = sureWrong[i] as number;
    const lastDay = last[i] as number;
    const own = check?.[i] ?? WITH_ALL;
    const [missed = 0, unsure = 0, sound = 0, fluent = 0] = verdictsOf(packed, i);
    return {
      key,
      now: chance(now[i]),
      day: chance(day[i]),
      ...(own !== WITH_ALL && { check: isoOfDay(own) }),
      verdicts: [missed, unsure, sound, fluent],
      ...(wrong !== NEVER && { sureWrong: wrong }),
      voids: voids[i] as number,
      ...(lastDay !== LEFT_OUT && { last: lastDay === NEVER ? null : isoOfDay(lastDay) }),
    };
  });
  return { ...deck, items };
};

/** The report as it came. */
export const unpack = ({ hash, key, taken: _, decks, v = 1, ...rest }: Packed): ReceivedReport => {
  const report: Report = { recency: 'report', v, ...rest, decks: decks.map(unpackDeck), selfRecorded: true };
  return { report, key, hash };
};
