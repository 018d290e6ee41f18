import type { Token } from '../formula/tokens.ts';
import { tokensOf } from '../formula/tokens.ts';
import type { Json } from '../lib/canonical-json.ts';

/** What a text of a deck may be: words for people, a formula, or the name of something. */
export type Role =
  | 'text'
  | 'formula'
  | 'thing'
  | 'rule'
  | 'name'
  | 'crew'
  | 'source'
  | 'option'
  | 'area'
  | 'ruleOfWind'
  | 'none';

/** A place where names are used. */
export type Site =
  | { readonly role: Role; readonly path: string; readonly text: string }
  | { readonly role: 'when' | 'given'; readonly path: string; readonly value: Json };

const ROLES: Readonly<Record<string, Role>> = {
  if: 'formula',
  number: 'formula',
  require: 'formula',
  limit: 'thing',
  step: 'thing',
  sets: 'thing',
  rotates: 'thing',
  answers: 'thing',
  use: 'thing',
  needs: 'thing',
  after: 'thing',
  procedures: 'thing',
  rule: 'rule',
  wind: 'rule',
  day: 'name',
  event: 'name',
  condition: 'name',
  speed: 'name',
  by: 'crew',
  calledBy: 'crew',
  source: 'source',
  // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
  then: 'option',
  is: 'option',
  where: 'area',
  without: 'ruleOfWind',
};
/** Names, words of closed lists, dates and addresses: never words for people. */
const PLAIN = new Set(
  'id unit show sense done nature basis method picture moment edition issued url format version language keeps signatures effective reviewBy'.split(
    ' ',
  ),
);

const roleOf = (key: string): Role => ROLES[key] ?? (PLAIN.has(key) ? 'none' : 'text');

/** All places of a draft, or of a part of it, where a name may be used; what is not shaped like a deck is passed over. */
export function* sitesOf(value: Json | undefined, path = '', key = ''): Generator<Site> {
  if (typeof value === 'string') {
    yield { role: roleOf(key), path, text: value };
    return;
  }
  if (typeof value !== 'object' || value === null) return;
  if (Array.isArray(value)) {
    // Elements are what their list is.
    for (const [i, one] of value.entries()) yield* sitesOf(one as Json, `${path}/${i}`, key);
    return;
  }
  if (key === 'when' || key === 'given') {
    yield { role: key, path, value };
    return;
  }
  for (const [member, one] of Object.entries(value))
    yield* sitesOf(one, `${path}/${member.replaceAll('~', '~0').replaceAll('/', '~1')}`, keyWithin(key, member));
}

/** Of records whose keys are the author's the members are known by the record. */
const keyWithin = (holder: string, member: string): string => {
  if (holder === 'options' || holder === 'oneOf') return 'words';
  if (holder === 'let') return 'if';
  return holder === 'draw' ? 'drawn' : member;
};

type Rewrite = (token: Token, tokens: readonly Token[], index: number) => string | null;

/** A formula with some of its words replaced; one that cannot be read stays as it is. */
export const rewritten = (formula: string, rewrite: Rewrite): string => {
  const read = tokensOf(formula);
  if (!read.ok) return formula;
  let out = formula;
  for (let i = read.tokens.length - 1; i >= 0; i--) {
    const token = read.tokens[i] as Token;
    const next = rewrite(token, read.tokens, i);
    if (next === null) continue;
    const start = token.type === 'string' ? token.at + 1 : token.at;
    out = `${out.slice(0, start)}${next}${out.slice(start + String(token.value).length)}`;
  }
  return out;
};

const sign = (token: Token | undefined, ...values: readonly string[]): boolean =>
  token?.type === 'sign' && values.includes(token.value);

/** Another name for a value of formulas. */
export const nameRewrite =
  (from: string, to: string): Rewrite =>
  (token, tokens, i) =>
    token.type === 'name' && token.value === from && !sign(tokens[i + 1], '(') ? to : null;

/** Another id for what `limit("id")` and `lookup("id", x)` name. */
export const limitRewrite =
  (from: string, to: string): Rewrite =>
  (token, tokens, i) => {
    const call = tokens[i - 2];
    const named = call?.type === 'name' && (call.value === 'limit' || call.value === 'lookup');
    return token.type === 'string' && token.value === from && named && sign(tokens[i - 1], '(') ? to : null;
  };

/** Another word for a choice, where it is compared with the name that it is a choice of. */
export const choiceRewrite =
  (name: string, from: string, to: string): Rewrite =>
  (token, tokens, i) => {
    if (token.type !== 'string' || token.value !== from) return null;
    const beside = (step: 1 | -1): boolean => {
      const other = tokens[i + 2 * step];
      return sign(tokens[i + step], '==', '!=') && other?.type === 'name' && other.value === name;
    };
    return beside(1) || beside(-1) ? to : null;
  };
