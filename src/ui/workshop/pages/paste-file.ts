/** Bytes of a file that is looked at at all; what is too long then is said by what reads it. */
const MOST_BYTES = 4_000_000;

/**
 * The text of a chosen file: UTF-8, UTF-16 with a byte order mark (which spreadsheets write as "Unicode text"), else
 * Windows-1252.
 * @throws RangeError where it is too large to be a list
 */
export const textOf = async (file: File): Promise<string> => {
  if (file.size > MOST_BYTES)
    throw new RangeError(
      `${file.name} has ${Math.round(file.size / 1_000_000)} MB: too much for a list of steps. Save the list alone as a CSV or text file.`,
    );
  const bytes = new Uint8Array(await file.arrayBuffer());
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (a === 0xfe && b === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  if (bytes.subarray(0, 2000).includes(0))
    throw new RangeError(
      `${file.name} is no text. Save the list as a CSV or text file, or copy its rows and paste them.`,
    );
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
};
