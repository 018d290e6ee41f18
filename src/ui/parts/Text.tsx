/**
 * A deck's text: *emphasis* and **strong** of CommonMark, all else as it stands: a star beside a space marks nothing. Never HTML: a deck is written by
 * strangers.
 */
export function Text(props: { readonly text: string }) {
  const parts = props.text.split(/(\*\*[^*\s](?:[^*]*[^*\s])?\*\*|\*[^*\s](?:[^*]*[^*\s])?\*)/);
  return (
    <>
      {parts.map((part, i) => {
        // Every second part is what the pattern found.
        if (i % 2 === 0) return part;
        return part.startsWith('**') ? <strong>{part.slice(2, -2)}</strong> : <em>{part.slice(1, -1)}</em>;
      })}
    </>
  );
}
