/** What makes a name look like another one: controls, marks of direction, characters without a shape. */
const UNFIT = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}]/u;

/**
 * A name as it is signed: NFC, single spaces.
 * @param most characters (code points)
 * @returns null where it is none
 */
export const shownName = (written: string, most: number): string | null => {
  const name = written.normalize('NFC').trim().replace(/ +/g, ' ');
  return name === '' || [...name].length > most || UNFIT.test(name) ? null : name;
};
