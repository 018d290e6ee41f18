import { placeOf, scan } from '../deck/scan.ts';

export interface Place {
  readonly line: number;
  readonly column: number;
}

/** Where the values of some JSON Pointers start in a text; what the text does not hold is left out. */
export function placesOf(text: string, pointers: readonly string[]): Map<string, Place> {
  const wanted = new Set(pointers);
  const found = new Map<string, Place>();
  const offset = text.startsWith('\ufeff') ? 1 : 0;
  scan(text.slice(offset), (keys, at) => {
    const pointer = keys.map((k) => `/${String(k).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
    if (wanted.has(pointer)) found.set(pointer, placeOf(text, at + offset));
  });
  return found;
}
