import type { Confusion } from '../../drill/confusions.ts';

const SHOWN = 12;

/** Which limit was given for which, and which rule's outcome was chosen for which. */
export function Confusions(props: { readonly of: readonly Confusion[] }) {
  if (props.of.length === 0) return null;
  return (
    <section class="stack">
      <h2>Taken for one another</h2>
      <ul class="lines">
        {props.of.slice(0, SHOWN).map((one) => (
          <li key={`${one.asked} ${one.given}`}>
            <p class="small soft">{one.asked}</p>
            <p>{confusionWords(one)}</p>
            <p>
              Right: <strong>{one.right}</strong>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

const confusionWords = ({ kind, given, isFor, slip, times, bothWays }: Confusion): string => {
  const what = kind === 'number' ? 'which answers' : 'which is right where';
  const meant = isFor.length > 0 ? `, ${what}: ${isFor.join('; or: ')}` : '';
  const often = times === 1 ? '' : times === 2 ? ' twice' : ` ${times} times`;
  return [
    `You ${kind === 'number' ? 'gave' : 'chose'} ${given}${often}${meant}.`,
    slip ?? '',
    bothWays ? 'And the other way round.' : '',
  ]
    .filter((words) => words !== '')
    .join(' ');
};
