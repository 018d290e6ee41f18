import Papa from 'papaparse';

/**
 * Cells that a spreadsheet would take for a formula: `=`, `+`, `-`, `@`, tab, carriage return, line feed and the wide
 * forms of these signs at their beginning (OWASP, "CSV Injection"). An apostrophe is put before them, which spreadsheets
 * take for "this is text". Apostrophes before such a sign count too, or what is read back would not be what was written.
 */
export const FORMULA = /^'*[=+\-@\t\r\n＝＋－＠]/u;

/** CSV (RFC 4180, line ends CRLF) that no spreadsheet runs. `readRows` gives the same rows back. */
export const writeRows = (rows: readonly (readonly string[])[]): string =>
  `${Papa.unparse(rows as string[][], { newline: '\r\n', escapeFormulae: FORMULA })}\r\n`;
