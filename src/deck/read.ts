import * as v from 'valibot';
import type { Deck } from '../model/deck.ts';
import { at, type Finding, finding, short } from '../subjects/finding.ts';
import { nearest } from '../subjects/shape.ts';
import { bytesOf, MOST_BYTES, placeOf, scan } from './scan.ts';
import { DeckSchema } from './schema.ts';

export interface ReadDeck {
  /** Absent where there is a finding. Its shape is right; what it means was not looked at. */
  readonly deck?: Deck;
  readonly findings: readonly Finding[];
}

/** More findings than this of one text help nobody. */
const MOST_FINDINGS = 200;

/**
 * A deck from its text: size, levels and keys are looked at before the text is parsed, then the shape.
 * Never throws. A byte order mark is passed over.
 */
export function readDeck(text: string): ReadDeck {
  const bytes = bytesOf(text, MOST_BYTES);
  if (bytes > MOST_BYTES) return { findings: [finding('too-big', '', { most: MOST_BYTES / 1_000_000 })] };
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text;
  const trouble = scan(plain);
  if (trouble) return { findings: [{ ...finding(trouble.code, '', trouble.args), ...placeOf(plain, trouble.at) }] };
  return readValue(JSON.parse(plain));
}

/** The same from a value that was parsed by the rules of `readDeck`, for an editor's draft. */
export function readValue(value: unknown): ReadDeck {
  const result = v.safeParse(DeckSchema, value);
  if (result.success) return { deck: result.output, findings: [] };
  return { findings: result.issues.slice(0, MOST_FINDINGS).map((issue) => shapeFinding(issue, value)) };
}

/** What is wrong with the shape at one place. @param root all that was read */
export function shapeFinding(issue: v.BaseIssue<unknown>, root: unknown): Finding {
  const keys = (issue.path ?? []).map((p) => String(p.key));
  const path = at('', ...keys);
  const key = keys.at(-1) ?? '';
  const here = valueAt(root, keys);
  const say = (x: unknown): string => (typeof x === 'string' ? short(x) : JSON.stringify(x));
  switch (issue.type) {
    case 'strict_object':
      if (issue.expected === 'never') return finding('unknown-key', path, { key: short(key), near: issue.message });
      if (issue.expected !== 'Object') return finding('missing-key', at('', ...keys.slice(0, -1)), { key });
      break;
    case 'regex':
      return finding('wrong-form', path, { found: say(issue.input), form: String(issue.requirement) });
    case 'min_length':
      return finding('too-few', path, { least: Number(issue.requirement) });
    case 'max_length':
      return finding('too-many', path, { most: Number(issue.requirement) });
    case 'min_value':
      return finding('too-small', path, { least: Number(issue.requirement) });
    case 'literal':
    case 'picklist': {
      const choices = issue.expected?.match(/"[^"]*"|[^"|() ]+/g)?.map((x) => x.replaceAll('"', '')) ?? [];
      const found = say(here);
      return finding('not-a-choice', path, { found, choices: choices.join(', '), near: nearest(found, choices) });
    }
  }
  return finding('wrong-type', path, { wanted: issue.type, found: kindOf(here) });
}

const kindOf = (x: unknown): string => (x === null ? 'null' : Array.isArray(x) ? 'array' : typeof x);

function valueAt(root: unknown, keys: readonly string[]): unknown {
  let here = root;
  for (const key of keys) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = (here as Record<string, unknown>)[key];
  }
  return here;
}
