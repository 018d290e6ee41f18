import { typeOf } from '../../formula/check.ts';
import { isName } from '../../formula/parse.ts';
import type { Ask, Scenario } from '../../model/deck.ts';
import { isNumberAsk } from '../../model/deck.ts';
import {
  type Checking,
  checkFormula,
  checkIds,
  checkRange,
  checkShow,
  checkSource,
  checkText,
  checkWhen,
  MOST,
  type Named,
  refer,
} from '../check.ts';
import { checkShown } from '../check-shown.ts';
import { at } from '../finding.ts';

/** What the text of a scenario says by itself. What it draws is tried out in check-draws.ts. */
export function checkScenario(c: Checking, scenario: Scenario, path: string): void {
  checkWhen(c, scenario.when, at(path, 'when'));
  const names = new Map<string, Named>(c.names);
  const put = (name: string, named: Named, here: string): void => {
    if (!isName(name)) c.add('name-unfit', here, { name });
    else if (names.has(name)) c.add('name-twice', here, { name });
    names.set(name, named);
  };
  for (const [name, draw] of Object.entries(scenario.draw)) {
    const here = at(path, 'draw', name);
    if ('from' in draw) {
      put(name, { kind: 'number' }, here);
      checkRange(c, draw, here);
    } else if (Array.isArray(draw.oneOf)) put(name, { kind: 'number' }, here);
    else {
      const words = Object.keys(draw.oneOf);
      put(name, { kind: 'string', words }, here);
      if (words.length === 0) c.add('options-few', at(here, 'oneOf'), { least: 1 });
      for (const [word, text] of Object.entries(draw.oneOf))
        checkText(c, text, at(here, 'oneOf', word), MOST.option, c.names);
      checkEvents(c, draw.oneOf as Readonly<Record<string, string>>, at(here, 'oneOf'));
    }
    checkShown(c, draw, here);
    if ('unit' in draw) checkShow(c, 'show' in draw ? draw.show : undefined, draw.unit, here);
    checkText(c, draw.label, at(here, 'label'), MOST.label, c.names);
  }
  // Texts are filled with what is drawn: a computed value would give its sum away.
  const seen = new Map(names);
  for (const [name, text] of Object.entries(scenario.let ?? {})) {
    const here = at(path, 'let', name);
    // In the order of the text: a value may use those above it.
    const kind = kindFor(c, text, here, names);
    put(name, { kind: kind ?? 'number' }, here);
  }
  scenario.require?.forEach((text, i) => {
    checkFormula(c, text, at(path, 'require', i), 'boolean', names);
  });
  if (scenario.picture !== undefined)
    for (const name of ['runway', 'windDir', 'windSpeed'])
      refer(c, 'value for the picture', name, Object.keys(scenario.draw), at(path, 'picture'));

  checkText(c, scenario.title, at(path, 'title'), MOST.title, seen);
  checkText(c, scenario.situation, at(path, 'situation'), MOST.situation, seen);
  checkText(c, scenario.why, at(path, 'why'), MOST.note, seen);
  checkIds(c, scenario.asks, at(path, 'asks'));
  scenario.asks.forEach((ask, i) => {
    checkAsk(c, ask, at(path, 'asks', i), names, seen);
    checkSource(c, ask, at(path, 'asks', i), scenario.source);
  });
  checkSource(c, scenario, path, null);
}

/** One event may have nothing to show; two such are one to whoever is asked. */
function checkEvents(c: Checking, events: Readonly<Record<string, string>>, path: string): void {
  const blank = Object.keys(events).filter((word) => events[word]?.trim() === '');
  const [first, ...others] = blank;
  if (first !== undefined && blank.length === Object.keys(events).length)
    c.add('events-blank', at(path, first), { other: '' });
  else for (const word of others) c.add('events-blank', at(path, word), { other: first as string });
}

function kindFor(c: Checking, text: string, path: string, names: ReadonlyMap<string, Named>): Named['kind'] | null {
  const quiet: Checking = { ...c, add: () => {} };
  for (const kind of ['number', 'boolean', 'string'] as const) {
    const tree = checkFormula(quiet, text, path, kind, names);
    if (!tree) continue;
    const typed = typeOf(tree, (name) => names.get(name)?.kind);
    return typed.ok ? typed.kind : null;
  }
  checkFormula(c, text, path, 'number', names);
  return null;
}

function checkAsk(
  c: Checking,
  ask: Ask,
  path: string,
  names: ReadonlyMap<string, Named>,
  seen: ReadonlyMap<string, Named>,
): void {
  checkText(c, ask.ask, at(path, 'ask'), MOST.ask, seen);
  checkText(c, ask.why, at(path, 'why'), MOST.note, seen);
  if (ask.if !== undefined) checkFormula(c, ask.if, at(path, 'if'), 'boolean', names);
  if (isNumberAsk(ask)) {
    checkFormula(c, ask.number, at(path, 'number'), 'number', names);
    checkShow(c, ask.show, ask.unit, path);
    ask.slips?.forEach((s, i) => {
      checkFormula(c, s.number, at(path, 'slips', i, 'number'), 'number', names);
      checkText(c, s.note, at(path, 'slips', i, 'note'), MOST.note, seen);
    });
    return;
  }
  const { options, rules } = ask.choose;
  const here = at(path, 'choose');
  const ids = Object.keys(options);
  if (ids.length < 2) c.add('options-few', at(here, 'options'), { least: 2 });
  for (const [id, text] of Object.entries(options)) checkText(c, text, at(here, 'options', id), MOST.option, seen);
  checkIds(c, rules, at(here, 'rules'));
  rules.forEach((rule, i) => {
    const place = at(here, 'rules', i);
    if (rule.if !== undefined) checkFormula(c, rule.if, at(place, 'if'), 'boolean', names);
    rule.then.forEach((id, k) => {
      refer(c, 'option', id, ids, at(place, 'then', k));
    });
    for (const key of ['why', 'slip'] as const) checkText(c, rule[key], at(place, key), MOST.note, seen);
    checkSource(c, rule, place, null);
  });
}
