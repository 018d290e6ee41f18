import { tokensOf } from '../formula/tokens.ts';
import type { Checking } from '../subjects/check.ts';
import { placesIn } from '../subjects/fill.ts';
import { at } from '../subjects/finding.ts';

/** Members that hold formulas, alone or in a list or record. */
const FORMULAS: ReadonlySet<string> = new Set(['if', 'number', 'require', 'let']);

/** Names that a part of a deck uses in formulas and texts, as events of cues, as failures, and as what cases are given by. */
function* namesUsed(value: unknown, key: string): Generator<string> {
  if (typeof value === 'string') {
    if (key === 'event' || key === 'condition') yield value;
    else if (FORMULAS.has(key)) {
      const read = tokensOf(value);
      if (read.ok) for (const token of read.tokens) if (token.type === 'name') yield token.value;
    } else yield* placesIn(value);
    return;
  }
  if (typeof value !== 'object' || value === null) return;
  if (Array.isArray(value)) {
    for (const one of value) yield* namesUsed(one, key);
    return;
  }
  for (const [member, one] of Object.entries(value)) {
    if (key === 'given') yield member;
    yield* namesUsed(one, key === 'let' ? 'let' : member);
  }
}

/** Conditions that nothing asks for: begun and forgotten, or called otherwise where they were meant. */
export function checkUsed(c: Checking): void {
  const { conditions, procedures, limits, scenarios, paced } = c.deck;
  if (!conditions || conditions.length === 0) return;
  const used = new Set(namesUsed([procedures, limits, scenarios, paced], ''));
  conditions.forEach(({ id, label }, i) => {
    if (!used.has(id)) c.add('condition-unused', at('/conditions', i), { label: label === '' ? id : label });
  });
}
