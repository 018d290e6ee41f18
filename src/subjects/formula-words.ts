import type { BinaryOp, Tree } from '../formula/tree.ts';
import { nodesOf } from '../formula/walk.ts';
import { foldText } from '../lib/fold-text.ts';
import type { Deck, Show, Unit } from '../model/deck.ts';
import { isFact, isTable } from '../model/deck.ts';
import { tradeForm } from '../model/trade-form.ts';
import type { ResolvedProcedure, ResolvedScenario, View } from './resolved.ts';

const COMPARED: Readonly<Record<string, string>> = {
  '<': 'is below',
  '<=': 'is at most',
  '>': 'is above',
  '>=': 'is at least',
  '==': 'is',
  '!=': 'is not',
  '&&': 'and',
  '||': 'or',
  '+': '+',
  '-': '−',
  '*': '×',
  '/': '÷',
};
/** How tightly each binds: what binds less than what stands around it is put in brackets. */
const RANK: Readonly<Record<string, number>> = { '||': 1, '&&': 2, '+': 4, '-': 4, '*': 5, '/': 5 };
const rankOf = (tree: Tree): number =>
  tree.kind === 'binary' ? (RANK[tree.op] ?? 3) : tree.kind === 'choose' ? 0 : tree.kind === 'unary' ? 6 : 7;

/** Functions whose values people know by a name of their own. */
const FUNCTIONS: Readonly<Record<string, string>> = {
  headwind: 'headwind',
  crosswind: 'crosswind',
  isaTemperature: 'standard temperature at',
  pressureAltitude: 'pressure altitude of',
  densityAltitude: 'density altitude of',
  trueAirspeed: 'true airspeed of',
};
/** Whose arguments go without saying: wind and runway. */
const WIND = new Set(['headwind', 'crosswind']);

/** How tightly + and − bind: × and ÷ bind tighter. */
const SUM = 4;

/** Parts of "a or b or c", from left to right. */
const chainOf = (tree: Tree, op: BinaryOp): readonly Tree[] =>
  tree.kind === 'binary' && tree.op === op ? [...chainOf(tree.left, op), ...chainOf(tree.right, op)] : [tree];

/** What ends like a sentence, without its stop. */
const sentenceIn = (said: string): { readonly sentence: string } | undefined => {
  const sentence = /^(.+?)[.!]$/u.exec(said.trim())?.[1];
  return sentence === undefined ? undefined : { sentence };
};

/** Letters up to which a step of the computation is said in place of its name. */
const SHORT = 24;
/** More rows of a table than this are not said within a sentence. */
const MOST_ROWS = 6;

/**
 * A formula of a scenario, or of a branch of a procedure (null), as a sentence, with the limits of the view filled in: for reading, before it is asked.
 * "crosswind is above 20 kt".
 */
export const formulaWords = (deck: Deck, view: View, of: ResolvedScenario | null, tree: Tree): string => {
  const draws = of?.scenario.draw ?? {};
  const lets = of?.lets ?? [];
  const nameWords = (name: string): string => {
    const own = lets.find((one) => one.name === name)?.tree;
    // What is said shortly stands for its name: "crosswind", "10 kt".
    const short = own === undefined || own === tree || rankOf(own) < 7 ? '' : words(own, 7);
    if (short !== '' && short.length <= SHORT) return short;
    const draw = draws[name];
    if (draw?.label !== undefined) return lower(draw.label);
    if (draw === undefined && own === undefined) {
      const day = deck.day?.find(({ id }) => id === name);
      if (day !== undefined) return day.label;
      const condition = deck.conditions?.find(({ id }) => id === name);
      if (condition !== undefined) return lower(condition.label);
    }
    return spaced(name);
  };
  /** @param isSum within a sum its reference says nothing: "V2 + 13 kt", not "13 kt above V2" */
  const limitWord = (id: string, isSum: boolean): string => {
    const limit = deck.limits?.find((one) => one.id === id);
    const value = view.limitValue(id);
    if (limit === undefined || isFact(limit) || Number.isNaN(value)) return `“${limit?.ask ?? spaced(id)}”`;
    return tradeForm(value, limit.unit, 'show' in limit ? limit.show : undefined, isSum ? undefined : limit.reference);
  };
  const stepNamed = (of: Tree): Tree =>
    of.kind === 'name' ? (lets.find(({ name }) => name === of.name)?.tree ?? of) : of;
  /** In what a value is counted, as far as one name says it. */
  const unitOf = (of: Tree): { readonly unit?: Unit; readonly show?: Show } => {
    const known = stepNamed(of);
    if (known.kind === 'name') {
      const named =
        draws[known.name] ??
        deck.day?.find(({ id }) => id === known.name) ??
        deck.conditions?.find(({ id }) => id === known.name);
      return {
        ...(named !== undefined && 'unit' in named && named.unit !== undefined && { unit: named.unit }),
        ...(named !== undefined && 'show' in named && named.show !== undefined && { show: named.show }),
      };
    }
    if (known.kind === 'unary') return unitOf(known.of);
    if (known.kind !== 'call') return {};
    const [first, second] = known.args;
    if (WIND.has(known.name)) return second === undefined ? {} : unitOf(second);
    if (known.name === 'abs') return first === undefined ? {} : unitOf(first);
    return known.name === 'max' && second !== undefined ? unitOf(second) : {};
  };
  /** "headwind > 0" is a headwind. */
  const windSide = (op: BinaryOp, left: Tree): string | undefined => {
    const name = words(left, 4);
    const known = stepNamed(left);
    if (name === 'crosswind' && known.kind === 'call' && known.name === 'crosswind')
      return op === '>' ? 'the crosswind is from the right' : op === '<' ? 'the crosswind is from the left' : undefined;
    if (name !== 'headwind' && name !== 'tailwind') return undefined;
    const other = name === 'headwind' ? 'tailwind' : 'headwind';
    const said: Partial<Record<BinaryOp, string>> = {
      '>': `there is a ${name}`,
      '<': `there is a ${other}`,
      '<=': `there is no ${name}`,
      '>=': `there is no ${other}`,
    };
    return said[op];
  };
  const lookupWords = (id: string, input: Tree): string => {
    const limit = deck.limits?.find((one) => one.id === id);
    if (limit === undefined || !isTable(limit)) return spaced(id);
    const { rows, input: of } = limit.table;
    const said = rows
      .slice(0, MOST_ROWS)
      .map(([x, y]) => `${tradeForm(x, of.unit)}: ${tradeForm(y, limit.unit, undefined, limit.reference)}`)
      .join(', ');
    return `the value for the ${words(input, 7)} (${said}${rows.length > MOST_ROWS ? ', …' : ''})`;
  };
  /** The words of an event, beside the name that it is compared with. */
  const eventWords = (name: Tree, value: string): string | { readonly sentence: string } => {
    const draw = name.kind === 'name' ? draws[name.name] : undefined;
    const events = draw !== undefined && 'oneOf' in draw && !Array.isArray(draw.oneOf) ? draw.oneOf : undefined;
    const said = (events as Readonly<Record<string, string>> | undefined)?.[value];
    if (said !== undefined && said !== '') return sentenceIn(said) ?? `“${said}”`;
    const condition = name.kind === 'name' ? deck.conditions?.find(({ id }) => id === name.name) : undefined;
    const option = condition !== undefined && 'options' in condition ? condition.options[value] : undefined;
    return option !== undefined ? `“${option}”` : spaced(value);
  };
  const yesOrNo = (name: string, truth: boolean): string => {
    const condition = deck.conditions?.find(({ id }) => id === name);
    if (condition !== undefined && 'yes' in condition) return lower(truth ? condition.yes : condition.no);
    return truth ? nameWords(name) : `not ${nameWords(name)}`;
  };
  /** An "or" of an "or" needs no brackets, nor an "and" of an "and". */
  const truth = (of: Tree, within?: BinaryOp): string =>
    of.kind === 'name' ? yesOrNo(of.name, true) : words(of, of.kind === 'binary' && of.op === within ? rankOf(of) : 3);
  const joinedBy = (word: 'and' | 'or', parts: readonly string[]): string =>
    parts.join(parts.some((part) => / (and|or) /.test(part.replace(/\(.*\)/g, ''))) ? `, ${word} ` : ` ${word} `);

  /** What is said of an event: a whole sentence is no name, and stands for itself. */
  function eventIs(op: BinaryOp, name: Tree, value: string): string {
    const event = eventWords(name, value);
    if (typeof event === 'string') return `${words(name, 4)} ${COMPARED[op] ?? op} ${event}`;
    if (op !== '==') return `not “${event.sentence}”`;
    return event.sentence.includes(':') ? `“${event.sentence}”` : lower(event.sentence).replace(/^A(?= )/, 'a');
  }
  function words(of: Tree, around: number, isSum = false): string {
    const own = rankOf(of);
    const text = plain(of, own, isSum);
    return own < around ? `(${text})` : text;
  }
  function plain(of: Tree, own: number, isSum: boolean): string {
    switch (of.kind) {
      case 'number':
        return tradeForm(of.value, null);
      case 'string':
        return spaced(of.value);
      case 'boolean':
        return of.value ? 'yes' : 'no';
      case 'name':
        return nameWords(of.name);
      case 'unary':
        if (of.op === '!') return of.of.kind === 'name' ? yesOrNo(of.of.name, false) : `not ${words(of.of, 6)}`;
        return words(of.of, 6) === 'headwind' ? 'tailwind' : `−${words(of.of, 6)}`;
      case 'binary': {
        const { op, left, right } = of;
        const said = COMPARED[op] ?? op;
        if (op === '&&' || op === '||')
          return joinedBy(
            op === '&&' ? 'and' : 'or',
            chainOf(of, op).map((part) => truth(part, op)),
          );
        if (right.kind === 'string') return eventIs(op, left, right.value);
        if (left.kind === 'string') return eventIs(op, right, left.value);
        // a − (b − c), a ÷ (b × c): the right side binds one tighter.
        if (own >= SUM) return `${words(left, own, true)} ${said} ${words(right, own + 1, true)}`;
        if (right.kind === 'number') {
          const side = right.value === 0 ? windSide(op, left) : undefined;
          const { unit, show } = unitOf(left);
          return side ?? `${words(left, own)} ${said} ${tradeForm(right.value, unit ?? null, show)}`;
        }
        return `${words(left, own)} ${said} ${words(right, own + 1)}`;
      }
      case 'choose':
        return `${words(of.yes, 1)} if ${truth(of.if)}, else ${words(of.no, 0)}`;
      case 'call':
        return callWords(of.name, of.args, isSum);
    }
  }
  function callWords(name: string, args: readonly Tree[], isSum: boolean): string {
    const [first, second] = args;
    if (name === 'limit' && first?.kind === 'string') return limitWord(first.value, isSum);
    if (name === 'lookup' && first?.kind === 'string' && second !== undefined) return lookupWords(first.value, second);
    // A component without its sign; a tailwind that is none.
    if (name === 'abs' && first?.kind === 'call' && WIND.has(first.name)) return words(first, 7);
    if (name === 'max' && args.length === 2 && first?.kind === 'number' && first.value === 0 && second !== undefined)
      if (plain(second, 7, false) === 'tailwind') return 'tailwind';
    const list = args.map((arg) => words(arg, 1)).join(', ');
    if (WIND.has(name)) {
      // Of other winds than the one that is plainly meant, such as the gusts, which one it is.
      const speed = args[1];
      return speed?.kind === 'name' && foldText(speed.name) !== 'windspeed'
        ? `${FUNCTIONS[name]} of the ${nameWords(speed.name)}`
        : (FUNCTIONS[name] as string);
    }
    // Angles are said in degrees, whatever a function takes.
    if (name === 'toRadians' || name === 'toDegrees') return list;
    if (name === 'abs') return `size of ${list}`;
    if (name === 'round' || name === 'floor' || name === 'ceil')
      return `${list}, rounded${name === 'round' ? '' : name === 'floor' ? ' down' : ' up'}`;
    if (name === 'min') return `the smallest of ${list}`;
    if (name === 'max') return `the greatest of ${list}`;
    return FUNCTIONS[name] === undefined ? `${spaced(name)}(${list})` : `${FUNCTIONS[name]} ${list}`;
  }
  return tree.kind === 'name' ? yesOrNo(tree.name, true) : words(tree, 0);
};

/** What a formula says if it does not hold. */
export const opposite = (tree: Tree): Tree => {
  if (tree.kind === 'unary' && tree.op === '!') return tree.of;
  if (tree.kind !== 'binary') return { kind: 'unary', op: '!', of: tree };
  const { op, left, right } = tree;
  const turned = OPPOSITE[op];
  if (turned === undefined) return { kind: 'unary', op: '!', of: tree };
  // De Morgan.
  return op === '&&' || op === '||'
    ? { kind: 'binary', op: turned, left: opposite(left), right: opposite(right) }
    : { kind: 'binary', op: turned, left, right };
};

const OPPOSITE: Partial<Readonly<Record<BinaryOp, BinaryOp>>> = {
  '<': '>=',
  '>=': '<',
  '>': '<=',
  '<=': '>',
  '==': '!=',
  '!=': '==',
  '&&': '||',
  '||': '&&',
};

/** Steps of a computation that formulas name, each as "name: how it is computed"; the short ones are said in place. */
export const stepsOfComputation = (
  deck: Deck,
  view: View,
  scenario: ResolvedScenario,
  trees: readonly Tree[],
): string[] => {
  const used = new Set<string>();
  const visit = (tree: Tree): void => {
    for (const node of nodesOf(tree)) {
      if (node.kind !== 'name' || used.has(node.name)) continue;
      used.add(node.name);
      const own = scenario.lets.find(({ name }) => name === node.name);
      if (own !== undefined) visit(own.tree);
    }
  };
  for (const tree of trees) visit(tree);
  return scenario.lets.flatMap(({ name, tree }) => {
    const said = formulaWords(deck, view, scenario, { kind: 'name', name });
    return used.has(name) && said === spaced(name) && !trees.includes(tree)
      ? [`${said}: ${formulaWords(deck, view, scenario, tree)}`]
      : [];
  });
};

/** Abbreviations of the trade, which authors write small in formulas. */
const ABBREVIATIONS = new Set(['apu', 'gs', 'ias', 'isa', 'oat', 'qnh', 'qfe', 'tas', 'wca']);

/** "windSpeed", "pack-gap" → "wind speed", "pack gap". */
const spaced = (name: string): string =>
  name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/[-_]/g, ' ')
    .toLowerCase()
    .replace(/[a-z]+/g, (word) => (ABBREVIATIONS.has(word) ? word.toUpperCase() : word));

/** Lower-case at the beginning, but not "QNH", "OAT" or "N1". */
const lower = (text: string): string => (/^[A-Z][a-z]/.test(text) ? text[0]?.toLowerCase() + text.slice(1) : text);

/**
 * What the branches of a procedure hang on in one of its situations, each once: one branch may stand on a condition,
 * another on its opposite, and in a situation both say the same.
 * @param situation id of it
 */
export const branchWords = (
  deck: Deck,
  view: View,
  { conditions }: Pick<ResolvedProcedure, 'conditions'>,
  situation: string,
): string[] => [
  ...new Set(conditions.map((tree, i) => formulaWords(deck, view, null, situation[i] === '0' ? opposite(tree) : tree))),
];
