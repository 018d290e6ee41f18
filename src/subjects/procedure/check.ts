import type { Amount, Id, Node, Procedure, Step } from '../../model/deck.ts';
import { isBlock, isFact, isUse } from '../../model/deck.ts';
import { type Checking, checkFormula, checkSource, checkText, checkWhen, MOST, refer } from '../check.ts';
import { at } from '../finding.ts';
import { asksOrder } from './words.ts';

/** Steps of one procedure with its shared blocks: beyond it nobody recalls, and orders take long to compare. */
const MOST_STEPS = 200;

/** Steps met on a walk, those of a block again at every use: blocks that use one another can double without end. */
const MOST_WALKED = 1000;

function walkedSteps(c: Checking, nodes: readonly Node[], known = new Map<Id, number>()): number {
  let sum = 0;
  for (const node of nodes) {
    if (isUse(node)) {
      const named = c.things.blocks.get(node.use);
      if (!named) continue;
      let inside = known.get(node.use);
      if (inside === undefined) {
        // A circle is refused elsewhere; here it must only end.
        known.set(node.use, 0);
        inside = walkedSteps(c, [named.block], known);
        known.set(node.use, inside);
      }
      sum += inside;
    } else if (isBlock(node)) for (const list of node.lanes ?? [node.steps ?? []]) sum += walkedSteps(c, list, known);
    else sum += 1;
  }
  return Math.min(sum, 1e9);
}

/** Every node below some nodes with its pointer; `use` is not followed. */
export function* nodesBelow(nodes: readonly Node[], path: string): Generator<readonly [Node, string]> {
  for (const [i, node] of nodes.entries()) {
    const here = at(path, i);
    yield [node, here];
    if (!isBlock(node)) continue;
    yield* nodesBelow(node.steps ?? [], at(here, 'steps'));
    for (const [lane, list] of (node.lanes ?? []).entries()) yield* nodesBelow(list, at(here, 'lanes', lane));
  }
}

/** What the text of a procedure says by itself: references, words, formulas. Its orders are looked at per variant. */
export function checkProcedure(c: Checking, procedure: Procedure, path: string): void {
  const { things, names } = c;
  checkText(c, procedure.title, at(path, 'title'), MOST.title, names);
  checkText(c, procedure.starts, at(path, 'starts'), MOST.situation, names);
  checkText(c, procedure.called, at(path, 'called'), MOST.step, names);
  checkText(c, procedure.why, at(path, 'why'), MOST.note, names);
  checkWhen(c, procedure.when, at(path, 'when'));
  if (procedure.calledBy !== undefined)
    refer(c, 'crew member', procedure.calledBy, things.crew.keys(), at(path, 'calledBy'));
  checkSource(c, procedure, path, undefined);
  procedure.strangers?.forEach((s, i) => {
    const here = at(path, 'strangers', i);
    if (typeof s === 'string') checkText(c, s, here, MOST.step, names);
    else {
      checkText(c, s.text, at(here, 'text'), MOST.step, names);
      checkText(c, s.note, at(here, 'note'), MOST.note, names);
    }
  });
  checkReadList(c, procedure, path);

  const own = idsWithin(c, procedure, path);
  for (const [node, here] of nodesBelow(procedure.steps, at(path, 'steps'))) {
    checkWhen(c, node.when, at(here, 'when'));
    if (node.if !== undefined) checkFormula(c, node.if, at(here, 'if'), 'boolean', names);
    if (isUse(node)) refer(c, 'named block', node.use, things.blocks.keys(), at(here, 'use'));
    else if (isBlock(node)) {
      if ((node.steps === undefined) === (node.lanes === undefined)) c.add('block-shape', here);
    } else checkStep(c, node, here, own, procedure.source);
  }
}

function checkStep(c: Checking, step: Step, path: string, own: ReadonlySet<Id>, source: string | undefined): void {
  const { things, names } = c;
  if (step.do === undefined && step.say === undefined) c.add('step-silent', path, { id: step.id });
  for (const key of ['do', 'say'] as const) checkText(c, step[key], at(path, key), MOST.step, names);
  for (const key of ['ifNoAnswer', 'why', 'slip'] as const) checkText(c, step[key], at(path, key), MOST.note, names);
  for (const key of ['alsoSay', 'alsoDo'] as const)
    step[key]?.forEach((text, i) => {
      checkText(c, text, at(path, key, i), MOST.step, names);
    });
  checkText(c, step.where, at(path, 'where'), MOST.title, names);
  if (step.where !== undefined && c.deck.areas !== undefined) {
    const areas = c.deck.areas.map((area) => area.label);
    refer(c, 'area of the plan', step.where, areas, at(path, 'where'));
  }
  if (step.by !== undefined) refer(c, 'crew member', step.by, things.crew.keys(), at(path, 'by'));
  for (const key of ['cue', 'from', 'until'] as const) {
    const place = step[key];
    if (!place) continue;
    const here = at(path, key);
    checkText(c, place.text, at(here, 'text'), MOST.cue, names);
    if (place.limit !== undefined) refer(c, 'limit', place.limit, things.limits.keys(), at(here, 'limit'));
    if (place.day !== undefined) {
      const days = (c.deck.day ?? []).map((d) => d.id);
      refer(c, 'value of the day', place.day, days, at(here, 'day'));
    }
    if ('event' in place && place.event !== undefined) {
      const events = (c.deck.conditions ?? []).filter((one) => 'yes' in one).map((one) => one.id);
      refer(c, 'yes/no condition', place.event, events, at(here, 'event'));
    }
    if (Object.keys(place).length === 0) c.add('cue-empty', here);
  }
  if (step.limit !== undefined) refer(c, 'limit', step.limit, things.limits.keys(), at(path, 'limit'));
  if (step.rule !== undefined) {
    const [scenario = '', ask = ''] = step.rule.split('#');
    const known = things.scenarios.get(scenario);
    if (refer(c, 'scenario', scenario, things.scenarios.keys(), at(path, 'rule'))) {
      const asks = (known?.asks ?? []).map((a) => a.id);
      refer(c, `question of ${scenario}`, ask, asks, at(path, 'rule'));
    }
  }
  const inside = (id: Id, here: string): boolean => refer(c, 'step of this procedure', id, own, here);
  if (step.answers !== undefined) inside(step.answers, at(path, 'answers'));
  step.needs?.forEach((id, i) => {
    inside(id, at(path, 'needs', i));
  });
  if (step.after) {
    inside(step.after.step, at(path, 'after', 'step'));
    for (const key of ['atLeast', 'atMost'] as const) checkWait(c, step.after[key], at(path, 'after', key));
  }
  checkSource(c, step, path, source ?? null);
}

const TIME: readonly string[] = ['s', 'min', 'h'];

function checkWait(c: Checking, amount: Amount | undefined, path: string): void {
  if (!amount) return;
  if ((amount.limit === undefined) === (amount.value === undefined)) c.add('amount-empty', path);
  else if (amount.limit !== undefined) {
    if (!refer(c, 'limit', amount.limit, c.things.limits.keys(), at(path, 'limit'))) return;
    const limit = c.things.limits.get(amount.limit);
    const unit = limit && !isFact(limit) ? limit.unit : '';
    if (!TIME.includes(unit)) c.add('wait-unit', at(path, 'limit'), { unit });
  } else if (!TIME.includes(amount.unit ?? '')) c.add('wait-unit', at(path, 'unit'), { unit: amount.unit ?? '' });
}

/** A checklist is read, not recalled: drilling its order would train what it is there to spare. */
function checkReadList(c: Checking, procedure: Procedure, path: string): void {
  if (asksOrder(procedure)) {
    if (/\bcheck-?\s?lists?\b/i.test(procedure.title))
      c.add('read-list-run', at(path, 'done'), { done: procedure.done });
  } else if (procedure.strangers?.length) c.add('read-list-run', at(path, 'strangers'), { done: procedure.done });
}

/** Ids of steps and blocks of a procedure, those of the blocks it uses among them. */
function idsWithin(c: Checking, procedure: Procedure, path: string): ReadonlySet<Id> {
  const ids = new Set<Id>();
  const used = new Set<Id>();
  let steps = 0;
  let cycle = false;
  const visit = (nodes: readonly Node[], using: readonly Id[]): void => {
    for (const node of nodes) {
      if (isUse(node)) {
        if (using.includes(node.use)) cycle = true;
        const named = c.things.blocks.get(node.use);
        if (!named || used.has(node.use)) continue;
        used.add(node.use);
        visit([named.block], [...using, node.use]);
      } else if (isBlock(node)) {
        if (node.id !== undefined) ids.add(node.id);
        const inside = node.id === undefined ? using : [...using, node.id];
        visit(node.steps ?? [], inside);
        for (const lane of node.lanes ?? []) visit(lane, inside);
      } else {
        ids.add(node.id);
        steps += 1;
      }
    }
  };
  visit(procedure.steps, []);
  if (cycle) c.add('use-cycle', at(path, 'steps'));
  const walked = walkedSteps(c, procedure.steps);
  if (steps > MOST_STEPS || walked > MOST_WALKED)
    c.add('too-many-steps', at(path, 'steps'), { steps: Math.max(steps, walked), most: MOST_STEPS });
  return ids;
}
