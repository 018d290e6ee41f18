import { studyDay } from '../log/study-day.ts';
import type { AnyEntry } from '../model/ports.ts';
import type { RowKey } from './schema.ts';

export const rowKey = (entry: Pick<AnyEntry, 'at' | 'off' | 'id'>): RowKey => [studyDay(entry.at, entry.off), entry.id];

/** n of an id written by this writer; 0 for the ids of others. */
export const ownNumber = (id: string, writer: string): number => {
  const dot = id.lastIndexOf('.');
  return id.slice(0, dot) === writer && /^\d+$/.test(id.slice(dot + 1)) ? Number(id.slice(dot + 1)) : 0;
};

/** 64 random bits in base 32 (RFC 4648, lower case): 13 characters. */
export const newWriter = (): string => {
  let bits = crypto.getRandomValues(new BigUint64Array(1))[0] ?? 0n;
  let text = '';
  for (let i = 0; i < 13; i += 1) {
    text += 'abcdefghijklmnopqrstuvwxyz234567'[Number(bits & 31n)];
    bits >>= 5n;
  }
  return text;
};

/** The lines of a segment. */
export const linesOf = (text: string): string[] => text.split('\n').slice(0, -1);
