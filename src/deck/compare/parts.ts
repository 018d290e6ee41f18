/** A deck as a flat list of its parts, each with its fields: what is compared besides the answers. */
import type { Deck, Id, Step } from '../../model/deck.ts';
import { at } from '../../subjects/finding.ts';
import type { View } from '../../subjects/resolved.ts';
import { thingsOf } from '../../subjects/things.ts';
import { quoted } from './answers.ts';
import type { Saying } from './field-words.ts';
import type { Field } from './fields.ts';
import { headParts } from './head-parts.ts';
import { limitParts } from './limit-parts.ts';
import { areaPart, pacedParts } from './paced-parts.ts';
import { procedureParts, stepsBelow } from './procedure-parts.ts';
import { scenarioParts } from './scenario-parts.ts';

export interface Part {
  /** The same in both decks for the same part. */
  readonly key: string;
  readonly parent: string | null;
  readonly path: string;
  /** "Limit: Gate height". */
  readonly label: string;
  /** What it says, for what came or went whole. */
  readonly says: string;
  /** The deck's own data; a variant's option is what only some learners fly. */
  readonly of: 'things' | 'head' | 'option';
  /** Others give another answer since it came: a rule before them, a case of what the default held for. */
  readonly displaces?: true;
  readonly variants: string;
  /** Where its `keeps` stands. */
  readonly keeps?: string;
  readonly fields: ReadonlyMap<string, Field>;
}

export type Put = (part: Part) => void;

/** @param view any: limits in conditions are said as they are in it */
export function partsOf(deck: Deck, view: View | undefined): Map<string, Part> {
  const steps = new Map<Id, Step>();
  const s: Saying = {
    deck,
    things: thingsOf(deck),
    view,
    step: (id) => {
      const step = steps.get(id);
      return step === undefined ? id : quoted(deck, step);
    },
  };
  const out = new Map<string, Part>();
  const put = (part: Part): void => {
    if (!out.has(part.key)) out.set(part.key, part);
  };
  for (const p of deck.procedures ?? []) for (const step of stepsBelow(p.steps)) steps.set(step.id, step);
  headParts(s, put);
  deck.procedures?.forEach((p, i) => {
    procedureParts(s, p, at('/procedures', i), put);
  });
  deck.limits?.forEach((l, i) => {
    limitParts(s, l, at('/limits', i), put);
  });
  deck.scenarios?.forEach((x, i) => {
    scenarioParts(s, x, at('/scenarios', i), put);
  });
  deck.paced?.forEach((p, i) => {
    pacedParts(s, p, at('/paced', i), put);
  });
  deck.areas?.forEach((a, i) => {
    areaPart(a, at('/areas', i), put);
  });
  return out;
}
