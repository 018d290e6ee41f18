import type { Deck, Draw, Scenario } from '../model/deck.ts';
import { placesIn } from '../subjects/fill.ts';
import { at } from '../subjects/finding.ts';
import { type Budget, checkDraws } from '../subjects/scenario/check-draws.ts';
import type { Noted, Setting } from './check-parts.ts';

/** Draws tried in one deck: beyond them each scenario gets a small sample, so that no deck takes a minute. */
const MOST_DRAWS = 2_000_000;
/** Rules drawn live. */
const MOST_LIVE = 100;

/** What one scenario draws, tried out in slices. */
export interface DrawJob {
  /** One slice. @returns whether it is done */
  step(): boolean;
  done(): boolean;
  /** So far; paths start at the scenario. */
  readonly found: readonly Noted[];
  /** Does it end as one begun now, with so much left to try? */
  fits(left: Readonly<Budget>): boolean;
  /** What is left when it is done. */
  after(left: Readonly<Budget>): Budget;
}

/** Where jobs of earlier checks are found again, by all that a job reads but how much is left to try. */
export interface Jobs {
  peek(reads: readonly string[]): DrawJob | undefined;
  get(reads: readonly string[], left: Readonly<Budget>, make: () => DrawJob): DrawJob;
}

/** Tries out all scenarios, pausing often. */
export function* checkAllDraws(setting: Setting, jobs: Jobs): Generator<undefined, Noted[]> {
  let left: Budget = { points: MOST_DRAWS, live: MOST_LIVE };
  const out: Noted[] = [];
  for (const [i, scenario] of (setting.deck.scenarios ?? []).entries()) {
    const job = jobs.get(drawReads(setting, scenario), left, () => jobOf(setting, scenario, left));
    while (!job.step()) yield;
    left = job.after(left);
    out.push(...placed(job.found, i));
  }
  return out;
}

/** What jobs that are done found, and whether that is all that `checkAllDraws` would say. */
export function knownDraws(setting: Setting, jobs: Jobs): { readonly found: Noted[]; readonly all: boolean } {
  let left: Budget = { points: MOST_DRAWS, live: MOST_LIVE };
  let all = true;
  const found: Noted[] = [];
  for (const [i, scenario] of (setting.deck.scenarios ?? []).entries()) {
    const job = jobs.peek(drawReads(setting, scenario));
    if (job?.done()) {
      all &&= job.fits(left);
      left = job.after(left);
      found.push(...placed(job.found, i));
    } else all = false;
  }
  return { found, all };
}

/** Findings of a job where its scenario stands. */
const placed = (found: readonly Noted[], scenario: number): Noted[] =>
  found.map(([code, path, args]) => [code, at('/scenarios', scenario) + path, args]);

function jobOf({ deck, views }: Setting, scenario: Scenario, before: Readonly<Budget>): DrawJob {
  const found: Noted[] = [];
  const budget = { ...before };
  const add = (...noted: Noted): void => void found.push(noted);
  const held = views().flatMap((view) => {
    const resolved = view.scenario(scenario);
    return resolved ? [[view, resolved] as const] : [];
  });
  const work = checkDraws({ deck, add }, scenario, '', held, budget);
  let exact: boolean | null = null;
  return {
    found,
    done: () => exact !== null,
    step: () => {
      if (exact !== null) return true;
      const { done, value } = work.next();
      if (done) exact = value;
      return exact !== null;
    },
    fits: (left) => {
      const same = left.points === before.points && left.live === before.live;
      if (same || exact === null) return same;
      // All was tried and would be again; what is sampled depends on how much is left.
      if (!exact || budget.points === 0 || budget.live < 0) return false;
      return left.points > before.points - budget.points && left.live >= before.live - budget.live;
    },
    after: (left) => ({
      points: left.points - (before.points - budget.points),
      live: left.live - (before.live - budget.live),
    }),
  };
}

/** Everything that decides what a scenario draws and what comes of it. Words do not, but for the places in them. */
function drawReads({ deck, context }: Setting, scenario: Scenario): readonly string[] {
  const { title, situation, why, source, edition, critical, draw, asks, ...rest } = scenario;
  const own = JSON.stringify({
    ...rest,
    places: placesIn(situation),
    draw: Object.entries(draw).map(([name, d]) => [name, drawOf(d)]),
    asks: asks.map(({ ask, why: _why, ...one }) => ({
      ...one,
      places: placesIn(ask),
      ...('choose' in one && { choose: { rules: one.choose.rules } }),
    })),
  });
  return [own, circumstances(deck), context.limitsIn(own)];
}

function drawOf(draw: Draw): unknown {
  const { label, ...rest } = draw;
  if (!('oneOf' in rest) || Array.isArray(rest.oneOf)) return rest;
  // Whether an event has something to show tells it from none.
  return Object.entries(rest.oneOf).map(([word, text]) => [word, text !== '']);
}

const circumstances = (deck: Deck): string =>
  JSON.stringify([
    (deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]),
    (deck.day ?? []).map(({ label, ...rest }) => rest),
    (deck.conditions ?? []).map((c) => {
      if ('yes' in c) return [c.id];
      if ('options' in c) return [c.id, Object.keys(c.options)];
      return [c.id, c.from, c.to, c.step];
    }),
  ]);

/** For one check alone. */
export const noJobs: Jobs = { peek: () => undefined, get: (_reads, _left, make) => make() };
