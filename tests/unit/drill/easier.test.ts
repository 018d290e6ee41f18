import { expect, test } from 'vitest';
import type { Asking } from '../../../src/drill/types.ts';
import { mayAsk } from '../../../src/drill/world.ts';
import { offers } from '../../../src/forms/registry.ts';
import type { Limit } from '../../../src/model/deck.ts';
import type { ItemKey } from '../../../src/model/item.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { flow, resolved, word } from '../forms/small-decks.ts';
import { FIRST_DAY, knowsAll, knowsNothing, type Practice, play, practiceOf } from './practice.ts';

const INVENTED = { course: 'fictional', seconds: 3000 } as const;

const limits = (n: number): Limit[] =>
  [...Array(n).keys()].map(
    (i) =>
      ({
        id: `limit-${i}`,
        ask: `Speed of ${word(i + 20)}?`,
        unit: 'kt',
        sense: 'at most',
        value: 100 + 7 * i,
      }) as Limit,
  );

/** Right on so many days, the last one `ago` days ago. @param s stability, days */
const known = ({ memory }: Practice, keys: Iterable<ItemKey>, s: number, ago: number, rightDays = 3): void => {
  const day = FIRST_DAY - ago;
  const at = day * 86_400_000;
  for (const key of keys)
    memory.items.set(key, {
      s,
      d: 5,
      day,
      at,
      n: 3,
      rightDays,
      lastRightDay: day,
      first: day - 20,
      verdict: 'sound',
      alert: null,
    });
};
const places = (deck: Resolved): ItemKey[] =>
  [...deck.items.values()].filter(({ facet }) => facet === 'place').map(({ key }) => key);

test('what was missed comes back the same day in an easier form, and right there is no proof of memory', () => {
  const deck = resolved({ procedures: [flow(6)], limits: limits(12) });
  const practice = practiceOf([deck]);
  known(practice, deck.items.keys(), 3, 20);
  let missed: Asking | null = null;
  const { asked } = play(
    practice,
    0,
    (now, world) => {
      if (now.offer.form !== 'run' || missed !== null) return knowsAll(now, world);
      missed = now;
      return knowsNothing(now, world);
    },
    INVENTED,
  );
  const first = missed as Asking | null;
  expect(first?.offer.ease).toBeLessThan(0.5);
  const back = asked.filter(({ eased }) => eased);
  expect(back.length).toBeGreaterThan(0);
  for (const { offer } of back) expect(offer.ease).toBeGreaterThan(first?.offer.ease ?? 1);
  // In the log it is said, and memory stands as the miss left it.
  const eased = practice.entries.filter((entry) => entry.k === 'answer' && entry.help === 'eased');
  expect(eased).toHaveLength(back.length);
  const keys = new Set(back.flatMap(({ offer }) => offer.proves));
  expect(keys.size).toBeGreaterThan(0);
  for (const key of keys) {
    expect(practice.memory.items.get(key)).toMatchObject({ verdict: 'missed', n: 4, rightDays: 3 });
  }
});

test('missed again in the easier form is missed', () => {
  const deck = resolved({ procedures: [flow(6)], limits: limits(12) });
  const practice = practiceOf([deck]);
  known(practice, deck.items.keys(), 3, 20);
  play(
    practice,
    0,
    (now, world) => (now.offer.form === 'limit' ? knowsAll(now, world) : knowsNothing(now, world)),
    INVENTED,
  );
  const eased = practice.entries.flatMap((entry) =>
    entry.k === 'answer' && entry.help === 'eased' ? Object.keys(entry.marks) : [],
  );
  expect(eased.length).toBeGreaterThan(0);
  for (const key of eased) expect(practice.memory.items.get(key)?.n ?? 0).toBeGreaterThan(4);
});

test('of an item that has grown the harder form is asked, of a young one the easier', () => {
  const deck = resolved({ procedures: [flow(6)] });
  const ease = (s: number): number => {
    const practice = practiceOf([deck]);
    const [first, ...others] = places(deck);
    // One weak step among strong ones: a question of its own, by whichever form.
    known(practice, others, 400, 1);
    known(practice, [first ?? ''], s, Math.ceil(s));
    const { asked } = play(practice, 0, knowsAll, { ...INVENTED, seconds: 60 });
    return asked[0]?.offer.ease ?? -1;
  };
  expect(ease(60)).toBeGreaterThanOrEqual(0);
  expect(ease(1)).toBeGreaterThan(ease(60));
});

test('slips are put only to whoever was right on two days', () => {
  const deck = resolved({ procedures: [flow(6)] });
  const slips = [...offers(deck, null, 1)].filter(({ form }) => form === 'slip');
  expect(slips.length).toBeGreaterThan(3);
  const put = (rightDays: number): number => {
    const practice = practiceOf([deck]);
    known(practice, deck.items.keys(), 400, 1, rightDays);
    return slips.filter((offer) => mayAsk(practice.world(0), offer)).length;
  };
  expect([0, 1, 2].map(put)).toEqual([0, 0, slips.length]);
});
