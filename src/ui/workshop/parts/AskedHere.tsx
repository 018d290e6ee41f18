import { dayWords } from '../../words.ts';
import { asked } from '../asked.ts';

/** Who queried the thing that is open, and in which words, until it is put away. @param props.thing its id */
export function AskedHere(props: { readonly draft: string; readonly thing: string }) {
  const now = asked.value;
  if (now === null || now.draft !== props.draft || now.thing !== props.thing || now.thing === '') return null;
  return (
    <section class="note stack" aria-label="Query of a trainee">
      <p>
        <strong>{now.who}</strong> queried this, {dayWords(now.on, 0)}
        {now.note === '' ? '. Nothing was written.' : ':'}
      </p>
      {now.note !== '' && <blockquote dir="auto">{now.note}</blockquote>}
      <div class="row">
        <button
          type="button"
          onClick={() => {
            asked.value = null;
          }}
        >
          Put this away
        </button>
        <a class="button" href="#/class">
          Class table
        </a>
      </div>
    </section>
  );
}
