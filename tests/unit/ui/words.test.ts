import { expect, test } from 'vitest';
import { dayWords, shortDay } from '../../../src/ui/words.ts';

/** Common practice of en-GB, from the Unicode CLDR that Node brings. */
const cldr = (options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat('en-GB', { ...options, timeZone: 'UTC' });
const FIRST = Date.parse('2027-12-25') / 86_400_000;
const days = Array.from({ length: 740 }, (_, i) => FIRST + i);

test('days are written as the CLDR writes them, over three turns of the year', () => {
  const long = cldr({ weekday: 'long', day: 'numeric', month: 'long' });
  const withYear = cldr({ weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' });
  const short = cldr({ weekday: 'short', day: 'numeric', month: 'short' });
  const plain = (text: string) => text.replace(',', '');
  for (const day of days) {
    const at = new Date(day * 86_400_000);
    const iso = at.toISOString().slice(0, 10);
    expect(dayWords(iso)).toBe(plain(long.format(at)));
    expect(dayWords(iso, 2026)).toBe(plain(withYear.format(at)));
    expect(dayWords(iso, at.getUTCFullYear())).toBe(plain(long.format(at)));
    expect(shortDay(day)).toBe(plain(short.format(at)));
  }
});
