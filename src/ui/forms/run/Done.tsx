import { Text } from '../../parts/Text.tsx';

/** Steps that were done before: rows of a run that are no part of the answer. */
export function Done(props: { readonly texts: readonly string[] }) {
  return props.texts.map((text, i) => (
    <li class="run-before" key={`${i} ${text}`}>
      <span class="margin" aria-hidden="true">
        ✓
      </span>
      <span class="soft">
        <span class="hidden-visually">Done already: </span>
        <Text text={text} />
      </span>
    </li>
  ));
}
