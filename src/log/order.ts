import type { AnyEntry } from '../model/ports.ts';

/** Effective time (UTC ms), writer, number: the order in which a log is folded. */
export type Order = readonly [number, string, number];

/** `<writer>.<n>`, with `~<hash6>` for the second of two entries under one id; of `<of>/m<mv>` those of the answer. */
const ID = /^([a-z0-9]+)\.(\d+)(?:~[0-9a-z]+)?(?:\/m(\d+))?$/;

export interface IdParts {
  readonly writer: string;
  readonly n: number;
}

/** @returns undefined where the text is no entry id */
export const parseId = (id: string): IdParts | undefined => {
  const m = ID.exec(id);
  return m ? { writer: m[1] as string, n: Number(m[2]) } : undefined;
};

/** @param at effective time, UTC ms */
export const orderOf = (entry: AnyEntry, at = entry.at): Order => {
  const { writer, n } = parseId(entry.id) ?? { writer: entry.id, n: 0 };
  return [at, writer, n];
};

export const compareOrder = (a: Order, b: Order): number =>
  a[0] - b[0] || (a[1] < b[1] ? -1 : a[1] > b[1] ? 1 : 0) || a[2] - b[2];
