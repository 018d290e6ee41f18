import { ANSWER_WORDS, ITEM_WORDS, VERDICT_WORDS } from '../../report/item-words.ts';

/** What is counted by verdict, and what each verdict means. */
export function VerdictWords() {
  return (
    <>
      <p class="small soft">
        {ITEM_WORDS} {ANSWER_WORDS}
      </p>
      <dl class="facts small soft">
        {VERDICT_WORDS.map(([verdict, means]) => [
          <dt key={verdict}>{verdict}</dt>,
          <dd key={`${verdict} means`}>{means}</dd>,
        ])}
      </dl>
    </>
  );
}

/** The same in one paragraph, for paper. */
export const verdictLine = (): string =>
  [ITEM_WORDS, ANSWER_WORDS, ...VERDICT_WORDS.map(([verdict, means]) => `${verdict}: ${means}.`)].join(' ');
