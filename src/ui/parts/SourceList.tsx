import type { Source } from '../../model/deck.ts';
import { BASIS_WORDS } from '../words.ts';

/** What a deck stands on: each source with its edition, and what kind of source it is. */
export function SourceList(props: { readonly sources: readonly Source[] }) {
  return (
    <ul class="lines small">
      {props.sources.map((source) => (
        <li key={source.id}>
          {source.title}
          {source.edition !== undefined && `, ${source.edition}`} ({BASIS_WORDS[source.basis]})
        </li>
      ))}
    </ul>
  );
}
