import { readLine } from '../log/read-line.ts';

/** Those of a journal's lines that are entries: one that is none must not keep the others from coming back. */
export const readable = (lines: readonly string[]): string[] =>
  lines.filter((line) => {
    try {
      readLine(line);
      return true;
    } catch {
      return false;
    }
  });
