import { readFile } from 'node:fs/promises';
import { resolve } from '../../src/deck/resolve.ts';
import { contentId } from '../../src/exchange/content-id.ts';
import { seeded } from '../../src/lib/random.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { StoredDeck } from '../../src/model/ports.ts';
import type { Report, ReportDeck } from '../../src/model/report.ts';
import { deckOf, fileOf, item, reportOf, unmet } from './plain-report.ts';

/** A demonstration deck as it is stored, and what trainees of it report. @param file of decks/, read from the root */
export const classOf = async (file: string) => {
  const text = await readFile(`decks/${file}`, 'utf8');
  const deck = JSON.parse(text) as Deck;
  const hash = await contentId(text);
  const flown = Object.fromEntries((deck.variants ?? []).map(({ id, options }) => [id, Object.keys(options)]));
  const resolved = resolve(deck, hash, flown);
  const items = [...resolved.items.values()];
  const stored: StoredDeck = {
    ref: resolved.ref,
    id: deck.id,
    version: deck.version,
    title: deck.title,
    nature: deck.nature,
    contentId: hash,
    text,
    installed: 0,
    active: false,
  };
  /** @param skill 0..1: about the recall of what was asked */
  const report = (
    trainee: string,
    skill: number,
    given: Partial<Report> = {},
    of: Partial<ReportDeck> = {},
  ): Report => {
    const random = seeded(trainee);
    const reported = items.map(({ key }) => {
      if (random() > 0.3 + skill) return unmet(key);
      const day = Math.round(1000 * Math.min(1, Math.max(0.05, skill + 0.4 * (random() - 0.5)))) / 1000;
      return item(key, { now: Math.round(1000 * (1 - (1 - day) / 2)) / 1000, day, verdicts: [1, 1, 2, 1] });
    });
    const { id, version, title } = deck;
    const views = resolved.views.map((view) => view.id);
    const own = deckOf(reported, { id, version, title, contentId: hash, variants: views, ...of });
    return reportOf({ trainee, ...given, decks: [own] });
  };
  return { deck, stored, items, report };
};

const PROCEDURES = 30;
const STEPS = 20;

/** A class on an invented deck of 600 steps in order: the deck as it is stored, and a file of each trainee. */
export const bigClass = async (trainees: number) => {
  const deck = {
    format: 1,
    id: 'calder/big',
    version: '1.0.0',
    title: 'A large deck',
    language: 'en',
    nature: 'fictional',
    sources: [{ id: 'om', title: 'Operations manual', basis: 'invented' }],
    procedures: Array.from({ length: PROCEDURES }, (_, p) => ({
      id: `procedure-${p}`,
      title: `Procedure ${p + 1}`,
      done: 'memory',
      starts: 'When called for',
      source: 'om',
      steps: Array.from({ length: STEPS }, (__, s) => ({
        id: `step-${p}-${s}`,
        by: 'PF',
        do: `Switch ${p + 1} of panel ${s + 1} ON`,
        ...(s % 7 === 0 && { critical: true }),
      })),
    })),
  } as unknown as Deck;
  const text = JSON.stringify(deck);
  const hash = await contentId(text);
  const resolved = resolve(deck, hash, {});
  const keys = [...resolved.items.values()].filter(({ facet }) => facet === 'place').map(({ key }) => key);
  const { id, version, title, nature } = deck;
  const stored: StoredDeck = {
    ref: resolved.ref,
    id,
    version,
    title,
    nature,
    contentId: hash,
    text,
    installed: 0,
    active: false,
  };
  const files = Array.from({ length: trainees }, (_, t) => {
    const random = seeded(t);
    const share = () => Math.round(1000 * random()) / 1000;
    const items = keys.map((key) => item(key, { now: share(), day: share() }));
    const report = reportOf({
      trainee: `Trainee ${t}`,
      decks: [deckOf(items, { id, version, title, contentId: hash })],
    });
    return fileOf(report, `device-${t}`);
  });
  return { stored, files, items: keys.length };
};
