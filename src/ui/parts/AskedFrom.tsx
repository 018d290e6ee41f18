import './asked-from.css';

/** What is asked from; of an invented aeroplane the mark, and the title only where it has room. */
export function AskedFrom(props: { readonly invented: boolean; readonly title: string }) {
  return (
    <p class="soft">
      {props.invented && (
        <strong>
          Invented<span> · </span>
        </strong>
      )}
      <span>{props.title}</span>
    </p>
  );
}
