import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkText } from '../../../src/deck/check.ts';
import type { SurveyTask } from '../../../src/deck/survey/types.ts';
import type { Finding } from '../../../src/subjects/finding.ts';
import { connectWorkshop } from '../../../src/workers/workshop-client.ts';
import { BASE, changed, type Loose } from '../../fixtures/decks/base.ts';

const today = '2026-11-25';
/** There are no workers here: the same work is done on this thread, in slices. */
const connected = () =>
  connectWorkshop(() => {
    throw new Error('no workers');
  });
const slow = (title: string): string => {
  const deck = JSON.parse(readFileSync('decks/wind-altimetry.deck.json', 'utf8'));
  return JSON.stringify({ ...deck, title });
};
const TASK: SurveyTask = { scenario: 0, ask: 0, variant: 0, seed: 1, x: null, y: null, around: null };

describe('a check', () => {
  test('tells what is found at once and, once draws are tried, all', async () => {
    const workshop = connected();
    const text = JSON.stringify(
      changed((d: Loose) => {
        d.scenarios[0].asks[1].choose.rules[0].if = 'cross > 900';
        d.title = '<b>x</b>';
      }),
    );
    const told: [readonly Finding[], boolean][] = [];
    await workshop.check(text, today, (findings, more) => void told.push([findings, more]));
    expect(told.map(([, more]) => more)).toEqual([true, false]);
    expect(told[0]?.[0].map((f) => f.code)).toEqual(['text-html']);
    expect(told[1]?.[0]).toEqual(checkText(text, { today }).findings);
    expect(told[1]?.[0].map((f) => f.code)).toContain('rule-never');
    workshop.dispose();
  });

  test('of an older draft tells nothing more once there is a newer one', async () => {
    const workshop = connected();
    const told: string[] = [];
    const check = (name: string, text: string) =>
      workshop.check(text, today, (_, more) => void told.push(`${name}${more ? ' …' : ''}`));
    const first = check('a', slow('A'));
    // Typed while the first is being looked at: the one in the middle is never looked at.
    const middle = check('b', slow('B'));
    const last = check('c', slow('C'));
    await Promise.all([first, middle, last]);
    expect(told).toEqual(['c …', 'c']);
    // Nothing was drawn anew for other words.
    await check('d', slow('D'));
    expect(told).toEqual(['c …', 'c', 'd']);
    workshop.dispose();
  });

  test('interrupted while draws are tried, goes on with the newer draft', async () => {
    const workshop = connected();
    const told: string[] = [];
    let second: Promise<void> | undefined;
    const broken = JSON.stringify(
      changed((d: Loose) => {
        d.limits[0].unit = 'furlong';
      }),
    );
    await workshop.check(slow('A'), today, (_, more) => {
      told.push(more ? 'a …' : 'a');
      second ??= workshop.check(broken, today, (findings) => void told.push(findings.map((f) => f.code).join()));
    });
    await second;
    expect(told).toEqual(['a …', 'not-a-choice']);
    workshop.dispose();
  });
});

test('a survey gives way to a later one', async () => {
  const workshop = connected();
  const text = JSON.stringify(BASE);
  const [older, newer] = await Promise.all([workshop.survey(text, TASK), workshop.survey(text, { ...TASK, ask: 1 })]);
  expect(older).toBeNull();
  expect(newer).toMatchObject({ exact: true, variants: [''] });
  workshop.dispose();
});
