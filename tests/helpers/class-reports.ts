import { readFile } from 'node:fs/promises';
import { resolve } from '../../src/deck/resolve.ts';
import { contentId } from '../../src/exchange/content-id.ts';
import { seeded } from '../../src/lib/random.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { StoredDeck } from '../../src/model/ports.ts';
import type { Report, ReportDeck } from '../../src/model/report.ts';
import { deckOf, item, reportOf, unmet } from './plain-report.ts';

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
