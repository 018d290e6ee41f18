/**
 * The checks of a deck as parts, each with all that it reads: what has not changed since need not be checked again while
 * somebody types. The command line runs the same parts once.
 */
import type { Deck, Limit, Paced, Procedure, Scenario } from '../model/deck.ts';
import { type Checking, namesOf } from '../subjects/check.ts';
import { type Add, type Args, at, type Code } from '../subjects/finding.ts';
import { checkLimit } from '../subjects/limit/check.ts';
import { checkCases } from '../subjects/limit/check-cases.ts';
import { checkPaced } from '../subjects/paced/check.ts';
import { checkProcedure, nodesBelow } from '../subjects/procedure/check.ts';
import { checkIfs, checkOrders } from '../subjects/procedure/check-order.ts';
import { checkScenario } from '../subjects/scenario/check.ts';
import { thingsOf } from '../subjects/things.ts';
import { type BareView, bareViews, formulaReader } from './bare-views.ts';
import { checkDay } from './check-day.ts';
import { checkHead } from './check-head.ts';
import { checkTables } from './check-tables.ts';

/** A finding before it has its severity. */
export type Noted = readonly [code: Code, path: string, args?: Args | undefined];

export interface Part {
  readonly kind: string;
  /** What it reads, as texts: equal texts, equal findings. */
  readonly reads: () => readonly string[];
  readonly work: (add: Add) => void;
}

/** A deck with what its parts have in common, made when first needed. */
export interface Setting {
  readonly deck: Deck;
  readonly checking: Omit<Checking, 'add'>;
  readonly parse: ReturnType<typeof formulaReader>;
  readonly views: () => readonly BareView[];
  readonly context: Context;
}

export function settingOf(deck: Deck): Setting {
  const checking = { deck, things: thingsOf(deck), names: namesOf(deck) };
  const parse = formulaReader();
  return {
    deck,
    checking,
    parse,
    views: once(() => bareViews(checking.things, parse)),
    context: contextOf(deck),
  };
}

/** What parts read of the deck besides their own text. */
export interface Context {
  /** Everything but things to ask, and words that nothing depends on. */
  readonly head: () => string;
  /** Limits without their values and words. */
  readonly limitKinds: () => string;
  /** What `use` and `rule` may name. */
  readonly named: () => string;
  readonly procedures: () => string;
  /** Limits and scenarios, whole. */
  readonly others: () => string;
  /** Limits, whole, whose id occurs in a text or in what the day requires. */
  readonly limitsIn: (text: string) => string;
}

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
};

function contextOf(deck: Deck): Context {
  const day = once(() => JSON.stringify(deck.day ?? []));
  return {
    head: once(() => {
      const { procedures, limits, scenarios, paced, title, version, about, madeBy, checkedBy, ...head } = deck;
      return JSON.stringify(head);
    }),
    limitKinds: once(() => JSON.stringify((deck.limits ?? []).map(kindOf))),
    named: once(() =>
      JSON.stringify([
        (deck.procedures ?? []).map((p) =>
          [...nodesBelow(p.steps, '')].flatMap(([n]) =>
            ('steps' in n || 'lanes' in n) && n.id !== undefined ? [n.id] : [],
          ),
        ),
        (deck.scenarios ?? []).map((s) => [s.id, s.asks.map((a) => a.id)]),
      ]),
    ),
    procedures: once(() => JSON.stringify(deck.procedures ?? [])),
    others: once(() => JSON.stringify([deck.limits ?? [], deck.scenarios ?? []])),
    limitsIn: (text) =>
      JSON.stringify((deck.limits ?? []).filter((l) => text.includes(l.id) || day().includes(l.id)).map(readOf)),
  };
}

/** What others hold against a limit that they name. */
function kindOf(limit: Limit): unknown {
  const { ask, why, slip, source, slips, ...rest } = limit as Limit & { slips?: unknown };
  const { value, from, to, is, cases, table, ...kind } = rest as Record<string, unknown>;
  const given = (cases as readonly { given?: unknown }[] | undefined)?.map((one) => one.given ?? null);
  return { ...kind, cases: given, table: table !== undefined };
}

/** What a formula reads of a limit. */
function readOf(limit: Limit): unknown {
  const { ask, why, slip, source, slips, ...rest } = limit as Limit & { slips?: unknown };
  return rest;
}

/** What the text of each thing says by itself. */
export function textParts({ deck, checking, context }: Setting, today: string): Part[] {
  const head: Part = {
    kind: 'head',
    reads: () => [JSON.stringify(deck), today],
    work: (add) => {
      checkHead({ ...checking, add }, today);
      checkTables({ ...checking, add });
    },
  };
  const procedure = (p: Procedure, path: string): Part => ({
    kind: 'procedure',
    reads: () => [path, context.head(), context.limitKinds(), context.named(), ...withBlocks(p, context)],
    work: (add) => checkProcedure({ ...checking, add }, p, path),
  });
  const limit = (l: Limit, path: string): Part => ({
    kind: 'limit',
    reads: () => [path, context.head(), JSON.stringify(l)],
    work: (add) => checkLimit({ ...checking, add }, l, path),
  });
  const scenario = (s: Scenario, path: string): Part => ({
    kind: 'scenario',
    reads: () => [path, context.head(), context.limitKinds(), JSON.stringify(s)],
    work: (add) => checkScenario({ ...checking, add }, s, path),
  });
  const paced = (p: Paced, path: string): Part => ({
    kind: 'paced',
    reads: () => [path, context.head(), context.procedures(), context.others(), JSON.stringify(p)],
    work: (add) => checkPaced({ ...checking, add }, p, path),
  });
  return [
    head,
    ...(deck.procedures ?? []).map((p, i) => procedure(p, at('/procedures', i))),
    ...(deck.limits ?? []).map((l, i) => limit(l, at('/limits', i))),
    ...(deck.scenarios ?? []).map((s, i) => scenario(s, at('/scenarios', i))),
    ...(deck.paced ?? []).map((p, i) => paced(p, at('/paced', i))),
  ];
}

/** A procedure, with all others where it takes a block of one: as a text of its own, which all that do so share. */
function withBlocks(p: Procedure, context: Context): readonly string[] {
  const own = JSON.stringify(p);
  return own.includes('"use"') ? [own, context.procedures()] : [own];
}

/** What is seen only once variants are picked, but for what scenarios draw. Of a deck without an error in its text. */
export function viewParts(setting: Setting): Part[] {
  const { deck, checking, context, parse, views } = setting;
  const where = once(() => {
    const places = new Map<string, string>();
    (deck.procedures ?? []).forEach((p, i) => {
      for (const [node, path] of nodesBelow(p.steps, at('/procedures', i, 'steps')))
        if ('id' in node && node.id !== undefined) places.set(node.id, path);
    });
    return places;
  });
  const orders = (p: Procedure, path: string): Part => ({
    kind: 'orders',
    reads: () => {
      const texts = withBlocks(p, context);
      return [path, context.head(), ...texts, context.limitsIn(texts.join('\n'))];
    },
    work: (add) => {
      checkOrders({ ...checking, add }, p, path, views(), parse, where());
      checkIfs({ ...checking, add }, p, path, views(), parse);
    },
  });
  const cases = (l: Limit, path: string): Part => ({
    kind: 'cases',
    reads: () => [path, context.head(), JSON.stringify(l)],
    work: (add) => checkCases({ ...checking, add }, l, path, views()),
  });
  return [
    ...(deck.procedures ?? []).map((p, i) => orders(p, at('/procedures', i))),
    ...(deck.limits ?? []).map((l, i) => cases(l, at('/limits', i))),
    {
      kind: 'day',
      reads: () => [context.head(), context.limitsIn('')],
      work: (add) => checkDay({ ...checking, add }, views()),
    },
  ];
}
