/** Places of a manual as people write them: "3.2.4", "§ 91.117(a)", "4-1-20 a5(a)", "Table 3", "3.2 to 3.4". */

/** Numbers and letters of a place, from the whole to the part; marks between them say nothing. */
type Place = readonly string[];
interface Span {
  readonly from: Place;
  readonly to: Place;
}

/** Stand before numbers and add nothing to them. */
const PLAIN: ReadonlySet<string> = new Set([
  'chapter',
  'section',
  'sections',
  'paragraph',
  'paragraphs',
  'para',
  'item',
]);

const placeOf = (text: string): Place =>
  [
    ...text
      .normalize('NFKC')
      .toLowerCase()
      .matchAll(/\p{N}+|\p{L}+/gu),
  ]
    .map((m) => m[0])
    .filter((word) => !PLAIN.has(word));

/** Several in one text are parted by comma, semicolon, ampersand, "and" or a new line. */
const spansOf = (text: string): Span[] =>
  text
    .split(/[,;&\n]|\band\b/i)
    .map((part) =>
      part
        .split(/[–—…]|\.{2,}|\bto\b/i)
        .map(placeOf)
        .filter((place) => place.length > 0),
    )
    .flatMap((ends) => (ends[0] ? [{ from: ends[0], to: ends.at(-1) as Place }] : []));

/** 0 also where one lies within the other: "3.2" and "3.2.4". */
function compare(a: Place, b: Place): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const [p, q] = [a[i] as string, b[i] as string];
    if (p === q) continue;
    const [n, m] = [Number(p), Number(q)];
    if (!Number.isNaN(n) && !Number.isNaN(m)) {
      if (n !== m) return n - m;
    } else if (Number.isNaN(n) !== Number.isNaN(m)) return Number.isNaN(n) ? 1 : -1;
    else return p < q ? -1 : 1;
  }
  return 0;
}

/** The changed places of a manual, as an author enters them; what holds no number or letter is passed over. */
export const paragraphsIn = (text: string): string[] =>
  text
    .split(/[,;\n]/)
    .map((part) => part.trim())
    .filter((part) => placeOf(part).length > 0);

/**
 * May what stands at `cited` have changed? A changed paragraph takes its sub-paragraphs with it; what cites a whole
 * section or chapter may rest on any paragraph of it.
 * @param cited of a thing's source: '' is the whole manual
 */
export const concerns = (changed: readonly string[], cited: string): boolean => {
  const places = spansOf(cited);
  const all = changed.flatMap(spansOf);
  if (places.length === 0) return all.length > 0;
  return places.some((a) => all.some((b) => compare(a.from, b.to) <= 0 && compare(b.from, a.to) <= 0));
};
