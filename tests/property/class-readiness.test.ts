import { sampleRankCorrelation } from 'simple-statistics';
import { expect, test } from 'vitest';
import { byKeyAlone, type KnownDecks } from '../../src/class/known.ts';
import { pack } from '../../src/class/packed.ts';
import { peopleOf } from '../../src/class/people.ts';
import { classTable } from '../../src/class/table.ts';
import { DEFAULT_SETTINGS } from '../../src/class/types.ts';
import { isoOfDay } from '../../src/lib/date-words.ts';
import { seeded } from '../../src/lib/random.ts';
import { chanceAfter, nextState, type State } from '../../src/memory/fsrs.ts';
import { answerOf, makeLearner, VARIED } from '../../src/memory/simulate/learner.ts';
import type { ReportItem } from '../../src/model/report.ts';
import { deckOf, received, reportOf } from '../helpers/plain-report.ts';

const TRAINEES = 200;
const ITEMS = 60;
const DAYS = 10;
/** Study day of the check. */
const CHECK = 20_795;
const ID = 'calder/try';
const keys = Array.from({ length: ITEMS }, (_, i) => `${ID}#step-${i}.place~${i.toString(36)}`);
const isCritical = (i: number) => i % 10 === 0;

const round = (share: number) => Math.round(share * 1000) / 1000;

/** One who practises some of the days and asks some of the items on each: what the report says, and what is true. */
const trainee = (number: number) => {
  const random = seeded(`trainee ${number}`);
  const learner = makeLearner(random, VARIED, DAYS);
  const diligence = random();
  const truth: (State | null)[] = keys.map(() => null);
  const belief: (State | null)[] = keys.map(() => null);
  const last: number[] = keys.map(() => 0);
  const verdicts = keys.map(() => ({ missed: 0, unsure: 0, sound: 0, fluent: 0 }));
  for (let day = 0; day < DAYS; day++)
    for (let i = 0; i < ITEMS; i++) {
      if (random() > 0.05 + 0.3 * diligence) continue;
      const gap = belief[i] === null ? 0 : day - (last[i] as number);
      const verdict = answerOf(random, learner, truth[i] ?? null, gap, day);
      (verdicts[i] as Record<typeof verdict, number>)[verdict] += 1;
      truth[i] = learner.model.next(truth[i] ?? null, gap, verdict);
      belief[i] = nextState(belief[i] ?? null, gap, verdict);
      last[i] = day;
    }
  const items = keys.map((key, i): ReportItem => {
    const state = belief[i] ?? null;
    const { missed, unsure, sound, fluent } = verdicts[i] as (typeof verdicts)[number];
    return {
      key,
      now: state === null ? null : round(chanceAfter(state.s, DAYS - 1 - (last[i] as number))),
      day: state === null ? null : round(chanceAfter(state.s, DAYS - (last[i] as number))),
      verdicts: [missed, unsure, sound, fluent],
      voids: 0,
    };
  });
  const recalled = keys.map((_, i) =>
    truth[i] == null ? 0 : learner.model.chance((truth[i] as State).s, DAYS - (last[i] as number)),
  );
  const report = reportOf({
    trainee: `T${number}`,
    made: isoOfDay(CHECK - 1),
    checkDate: isoOfDay(CHECK),
    decks: [deckOf(items)],
    leftOut: ['sure', 'days'],
  });
  return {
    packed: pack(received(report, `key-${number}`), 0),
    readiness: recalled.reduce((sum, r) => sum + r, 0) / ITEMS,
  };
};

test('the order of the table is that of true readiness: 200 simulated trainees whose memories differ', () => {
  const all = Array.from({ length: TRAINEES }, (_, number) => trainee(number));
  const decks: KnownDecks = new Map([
    [
      ID,
      {
        title: 'Try',
        language: 'en',
        newest: { version: '1.0.0', contentId: 'a'.repeat(64) },
        columns: new Map([[`${ID}#`, 'All']]),
        items: new Map(keys.map((key, i) => [key, { ...byKeyAlone(key), critical: isCritical(i) }])),
      },
    ],
  ]);
  const packed = all.map((one) => one.packed);
  const { rows } = classTable({
    people: peopleOf(packed, []),
    reports: new Map(packed.map((one) => [one.hash, one])),
    decks,
    settings: DEFAULT_SETTINGS,
    today: isoOfDay(CHECK - 1),
  });
  expect(rows).toHaveLength(TRAINEES);
  const readiness = rows.map(({ person }) => all[Number(person.pseudonym.slice(1))]?.readiness as number);
  // There is something to be told apart.
  expect(Math.max(...readiness) - Math.min(...readiness)).toBeGreaterThan(0.3);
  const placed = rows.map((_, place) => place);
  const rho = sampleRankCorrelation(placed, readiness);
  expect(rho).toBeGreaterThanOrEqual(0.9);
});
