import type { Deck, Scenario } from '../../model/deck.ts';
import { at, SEVERITIES } from '../../subjects/finding.ts';
import type { ResolvedScenario, View } from '../../subjects/resolved.ts';
import { checkScenario } from '../../subjects/scenario/check.ts';
import { type InView, limitsOf } from '../../subjects/scenario/check-draws.ts';
import { axesThatMatter, optionWords } from '../../subjects/view-names.ts';
import { checkHead } from '../check-head.ts';
import { type Setting, settingOf } from '../check-parts.ts';
import { mend } from '../mend.ts';
import { readDeck } from '../read.ts';
import type { NoSurvey } from './types.ts';

export interface Variant {
  readonly view: View;
  readonly resolved: ResolvedScenario;
  /** What tells it from the others; '' where it is the only one. */
  readonly words: string;
}

/** A scenario of a draft in the variants that differ for it. */
export interface SurveySetting {
  readonly deck: Deck;
  readonly scenario: Scenario;
  readonly path: string;
  readonly variants: readonly Variant[];
}

/**
 * @param text a draft as JSON; what is wrong with it elsewhere does not matter
 * @param index place of the scenario
 */
export function surveySetting(text: string, index: number): SurveySetting | NoSurvey {
  const path = at('/scenarios', index);
  const { deck, at: unread } = deckFor(text, path);
  const scenario = deck?.scenarios?.[index];
  if (!deck || !scenario) return { problem: 'shape', at: unread };
  const setting = settingOf(deck);
  const broken = brokenAt(setting, scenario, path);
  if (broken !== null) return { problem: 'errors', at: broken };
  const held = setting.views().flatMap((view) => {
    const resolved = view.scenario(scenario);
    return resolved ? [[view, resolved] as const] : [];
  });
  if (held.length === 0) return { problem: 'nowhere' };
  return { deck, scenario, path, variants: different(deck, held) };
}

/** The deck of a draft; where its shape is wrong, only if that is in a part that no draw of the scenario reads. */
function deckFor(text: string, path: string): { readonly deck?: Deck | undefined; readonly at: string } {
  const read = readDeck(text);
  if (read.deck) return { deck: read.deck, at: '' };
  const reads = [path, '/day', '/conditions', '/variants', '/limits', '/scenarios'];
  const inTheWay = read.findings
    .map((f) => (f.code === 'missing-key' ? at(f.path, String(f.args.key)) : f.path))
    .filter((place) => reads.some((part) => place === part || (part !== '/scenarios' && place.startsWith(`${part}/`))));
  const [first] = inTheWay;
  return first === undefined ? { deck: mend(text, read.findings)?.deck, at: '' } : { at: first };
}

/** Where the first error is; null: nowhere. */
function brokenAt({ checking }: Setting, scenario: Scenario, path: string): string | null {
  let broken: string | null = null;
  const drawn = [path, '/day', '/conditions'];
  const add: Parameters<typeof checkScenario>[0]['add'] = (code, where) => {
    if (SEVERITIES[code] === 'error' && drawn.some((part) => where === part || where.startsWith(`${part}/`)))
      broken ??= where;
  };
  checkScenario({ ...checking, add }, scenario, path);
  // Whether dates have passed is of no concern.
  checkHead({ ...checking, add }, '0000-00-00');
  return broken;
}

/** Views in which its limits have the same values are one variant of it. */
function different(deck: Deck, held: readonly InView[]): Variant[] {
  const groups = new Map<string, InView[]>();
  for (const one of held) {
    const key = limitsOf(one[1])
      .map((id) => one[0].limitValue(id))
      .join();
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const axes = deck.variants ?? [];
  const views = held.map(([view]) => view);
  return [...groups.values()].map((group): Variant => {
    const [[view, resolved]] = group as [InView, ...InView[]];
    const ids = group.map(([one]) => one.id);
    const only = groups.size > 1 ? axesThatMatter(ids, views, axes) : [];
    const words = [...new Set(group.map(([one]) => optionWords(one.pick, only, axes)))].join(' / ');
    return { view, resolved, words };
  });
}
