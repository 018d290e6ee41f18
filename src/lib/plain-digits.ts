/** Digits of any script as 0 to 9. They stand in runs of ten, from 0 on (The Unicode Standard, 4.6 Numeric Value). */
export const plainDigits = (text: string): string =>
  text.replace(/\p{Nd}/gu, (digit) => {
    let value = 0;
    const point = digit.codePointAt(0) as number;
    while (value < 9 && /^\p{Nd}$/u.test(String.fromCodePoint(point - value - 1))) value += 1;
    return String(value);
  });
