import { Text } from '../../parts/Text.tsx';

/** What holds: circumstances, the variant that is meant, values of the day. */
export function Scene(props: { readonly lines: readonly string[] }) {
  if (props.lines.length === 0) return null;
  return (
    <ul class="scene">
      {props.lines.map((line) => (
        <li key={line}>
          <Text text={line} />
        </li>
      ))}
    </ul>
  );
}
