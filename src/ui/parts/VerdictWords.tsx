import { ANSWER_WORDS, ITEM_WORDS, VERDICT_WORDS } from '../../report/item-words.ts';

/** What is counted by verdict, and what each verdict means. */
export function VerdictWords() {
  return (
    <div class="small soft">
      <p>
        {ITEM_WORDS} {ANSWER_WORDS}
      </p>
      <ul>
        {VERDICT_WORDS.map(([verdict, means]) => (
          <li key={verdict}>
            <strong>{verdict}</strong>: {means}.
          </li>
        ))}
      </ul>
    </div>
  );
}

/** The same in one paragraph, for paper. */
export const verdictLine = (): string =>
  [ITEM_WORDS, ANSWER_WORDS, ...VERDICT_WORDS.map(([verdict, means]) => `${verdict}: ${means}.`)].join(' ');
