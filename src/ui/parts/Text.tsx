/** Scripts that run from right to left (Unicode blocks from Hebrew to Arabic Extended-A). */
const TURNED = /[\u0590-\u08ff]/;

/**
 * A deck's text: *emphasis* and **strong** of CommonMark, all else as it stands: a star beside a space marks nothing. Never HTML: a deck is written by
 * strangers.
 */
export function Text(props: { readonly text: string }) {
  const parts = props.text.split(/(\*\*[^*\s](?:[^*]*[^*\s])?\*\*|\*[^*\s](?:[^*]*[^*\s])?\*)/);
  const shown = parts.map((part, i) => {
    // Every second part is what the pattern found.
    if (i % 2 === 0) return part;
    return part.startsWith('**') ? <strong>{part.slice(2, -2)}</strong> : <em>{part.slice(1, -1)}</em>;
  });
  // Within the app's own words it keeps its way.
  return TURNED.test(props.text) ? <bdi>{shown}</bdi> : shown;
}
