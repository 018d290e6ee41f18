/** How wide the columns of the class table are, in rem: as narrow as their words and figures allow. */

const NAMES = 10;
/** "! 64 %" in bold, and the gap before it. */
const FIGURES = 4.5;
const GAP = 0.9;
/** Words under the minutes: "25 of 50 min answering", in few lines. */
const MINUTES = 7;
/** Letters of heads, rem: `--font-s`. */
const HEAD = 0.889;

/** Pieces that no line break parts: a word, or a word's part up to its hyphen. */
const pieces = (title: string): readonly string[] => title.split(/\s+|(?<=-)/);

/** @param em width of a text, in em of its own letters */
export const columnWidth = (title: string, em: (text: string) => number): number =>
  Math.max(FIGURES, Math.ceil(10 * (HEAD * Math.max(...pieces(title).map(em)) + GAP)) / 10);

/** Of names, all, minutes, and each procedure. */
export const columnWidths = (heads: readonly string[], em: (text: string) => number): readonly number[] => [
  NAMES,
  ...heads.map((head) => (head === 'Minutes' ? MINUTES : columnWidth(head, em))),
];

/** In the letters of this page. */
export const measured = (): ((text: string) => number) => {
  const context = document.createElement('canvas').getContext('2d');
  // Where nothing can be measured: a letter is hardly ever wider than that on average.
  if (context === null) return (text) => 0.65 * text.length;
  context.font = `100px ${getComputedStyle(document.body).fontFamily}`;
  return (text) => context.measureText(text).width / 100;
};
