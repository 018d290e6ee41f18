import { FUNCTIONS } from './functions.ts';
import type { Parsed } from './parse.ts';
import type { Environment, Tree, Value } from './tree.ts';

/**
 * Thrown where a formula has no value: NaN or infinity at any step of it (`min(1, 1 / 0)` has none either), a name that
 * was not drawn, kinds that do not fit.
 */
export class NoValue extends Error {
  override readonly name = 'NoValue';
}

/** Slack of every comparison: two ways to compute the same number differ in their last digits. */
const SLACK = 1e-9;

type Run = (env: Environment) => Value;

/**
 * A formula made ready to be evaluated many times.
 * @returns a function that gives the value. @throws NoValue where it has none
 */
export const compile = (tree: Tree): Run => {
  const run = compiled(tree);
  return (env) => finite(run(env));
};

/** @throws NoValue where the text is no formula: for those that were checked before */
export const treeOf = (parsed: Parsed): Tree => {
  if (!parsed.ok) throw new NoValue(parsed.error.code);
  return parsed.tree;
};

const number = (run: Run): ((env: Environment) => number) => {
  return (env) => {
    const value = run(env);
    if (typeof value !== 'number') throw new NoValue('a number is needed');
    return finite(value);
  };
};
const truth = (run: Run): ((env: Environment) => boolean) => {
  return (env) => {
    const value = run(env);
    if (typeof value !== 'boolean') throw new NoValue('a truth value is needed');
    return value;
  };
};

function compiled(tree: Tree): Run {
  switch (tree.kind) {
    case 'number':
    case 'string':
    case 'boolean': {
      const { value } = tree;
      return () => value;
    }
    case 'name': {
      const { name } = tree;
      return ({ names }) => {
        const value = Object.hasOwn(names, name) ? names[name] : undefined;
        if (value === undefined) throw new NoValue(`${name} has no value`);
        return value;
      };
    }
    case 'unary': {
      if (tree.op === '!') {
        const of = truth(compiled(tree.of));
        return (env) => !of(env);
      }
      const of = number(compiled(tree.of));
      return (env) => 0 - of(env);
    }
    case 'choose': {
      const condition = truth(compiled(tree.if));
      const [yes, no] = [compiled(tree.yes), compiled(tree.no)];
      return (env) => (condition(env) ? yes(env) : no(env));
    }
    case 'binary':
      return binary(tree);
    case 'call':
      return call(tree);
  }
}

function binary(tree: Extract<Tree, { kind: 'binary' }>): Run {
  const [l, r] = [compiled(tree.left), compiled(tree.right)];
  switch (tree.op) {
    case '&&': {
      const [a, b] = [truth(l), truth(r)];
      return (env) => a(env) && b(env);
    }
    case '||': {
      const [a, b] = [truth(l), truth(r)];
      return (env) => a(env) || b(env);
    }
    case '==':
    case '!=': {
      const want = tree.op === '==';
      return (env) => same(l(env), r(env)) === want;
    }
  }
  const [a, b] = [number(l), number(r)];
  switch (tree.op) {
    case '+':
      return (env) => a(env) + b(env);
    case '-':
      return (env) => a(env) - b(env);
    case '*':
      return (env) => a(env) * b(env);
    case '/':
      return (env) => a(env) / b(env);
    case '>':
      return (env) => a(env) - b(env) > SLACK;
    case '<':
      return (env) => b(env) - a(env) > SLACK;
    case '<=':
      return (env) => !(a(env) - b(env) > SLACK);
    case '>=':
      return (env) => !(b(env) - a(env) > SLACK);
  }
}

const same = (a: Value, b: Value): boolean => {
  if (typeof a !== typeof b) throw new NoValue('only values of one kind compare');
  return typeof a === 'number' ? Math.abs(finite(a) - finite(b as number)) <= SLACK : a === b;
};

const finite = <T extends Value>(value: T): T => {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new NoValue('not a finite number');
  return value;
};

function call(tree: Extract<Tree, { kind: 'call' }>): Run {
  const run = FUNCTIONS.get(tree.name)?.run;
  if (run !== undefined) {
    const args = tree.args.map((arg) => number(compiled(arg)));
    return (env) => run(...args.map((arg) => arg(env)));
  }
  const [first, second] = tree.args;
  const id = first?.kind === 'string' ? first.value : '';
  if (tree.name === 'limit') return (env) => env.limit(id);
  if (tree.name === 'lookup' && second !== undefined) {
    const x = number(compiled(second));
    return (env) => env.lookup(id, x(env));
  }
  throw new NoValue(`no function ${tree.name}`);
}
