import { isName } from '../formula/parse.ts';
import { type Checking, checkFormula, checkIds, checkRange, checkShow, checkText, MOST } from '../subjects/check.ts';
import { checkShown } from '../subjects/check-shown.ts';
import { at } from '../subjects/finding.ts';
import { nodesBelow } from '../subjects/procedure/check.ts';
import { checkAreas } from './check-areas.ts';
import { checkUsed } from './check-used.ts';
import { UNNAMED } from './unnamed.ts';

/** What a deck says of itself: dates, sources, variants, crew, the day and conditions; ids that stand twice. */
export function checkHead(c: Checking, today: string): void {
  const { deck } = c;
  const none = new Map();
  checkText(c, deck.title, '/title', MOST.title, none);
  checkText(c, deck.about, '/about', 2 * MOST.note, none);
  checkText(c, deck.amendment, '/amendment', 2 * MOST.note, none);
  if (deck.id === UNNAMED) c.add('deck-unnamed', '/id', { id: deck.id });
  checkDates(c, today);
  checkUsed(c);
  checkIds(c, deck.sources, '/sources');
  checkIds(c, deck.variants ?? [], '/variants');
  checkIds(c, deck.crew ?? [], '/crew');
  (deck.variants ?? []).forEach((axis, i) => {
    const path = at('/variants', i);
    // `{"not": …}` inverts a `when`.
    if (axis.id === 'not') c.add('name-unfit', at(path, 'id'), { name: axis.id });
    if (Object.keys(axis.options).length < 2) c.add('options-few', at(path, 'options'), { least: 2 });
    checkText(c, axis.label, at(path, 'label'), MOST.label, none);
    for (const [id, text] of Object.entries(axis.options))
      checkText(c, text, at(path, 'options', id), MOST.label, none);
  });
  checkNames(c);
  checkAreas(c);
  checkThings(c);
}

/** Values of the day and conditions: one namespace of names in formulas. */
function checkNames(c: Checking): void {
  const { deck } = c;
  const none = new Map();
  const seen = new Set<string>();
  const put = (id: string, path: string): void => {
    if (!isName(id)) c.add('name-unfit', at(path, 'id'), { name: id });
    else if (seen.has(id)) c.add('name-twice', at(path, 'id'), { name: id });
    seen.add(id);
  };
  const days = new Map([...c.names].filter(([name]) => deck.day?.some((d) => d.id === name)));
  (deck.day ?? []).forEach((d, i) => {
    const path = at('/day', i);
    put(d.id, path);
    checkRange(c, d, path);
    checkShow(c, d.show, d.unit, path);
    checkShown(c, d, path);
    checkText(c, d.label, at(path, 'label'), MOST.label, none);
    d.require?.forEach((text, k) => {
      checkFormula(c, text, at(path, 'require', k), 'boolean', days);
    });
  });
  (deck.conditions ?? []).forEach((one, i) => {
    const path = at('/conditions', i);
    put(one.id, path);
    checkText(c, one.label, at(path, 'label'), MOST.label, none);
    if ('yes' in one) {
      for (const key of ['yes', 'no'] as const) checkText(c, one[key], at(path, key), MOST.option, none);
    } else if ('options' in one) {
      if (Object.keys(one.options).length < 2) c.add('options-few', at(path, 'options'), { least: 2 });
      for (const [id, text] of Object.entries(one.options))
        checkText(c, text, at(path, 'options', id), MOST.option, none);
    } else checkRange(c, one, path);
  });
}

/** Memory hangs on the ids of procedures, steps, blocks, limits and scenarios; paced runs are called up by theirs. */
function checkThings(c: Checking): void {
  const { deck } = c;
  const seen = new Set<string>();
  const put = (id: string | undefined, path: string): void => {
    if (id === undefined) return;
    if (seen.has(id)) c.add('id-twice', at(path, 'id'), { id });
    seen.add(id);
  };
  (deck.procedures ?? []).forEach((p, i) => {
    const path = at('/procedures', i);
    put(p.id, path);
    for (const [node, here] of nodesBelow(p.steps, at(path, 'steps'))) if ('id' in node) put(node.id, here);
  });
  (deck.limits ?? []).forEach((l, i) => {
    put(l.id, at('/limits', i));
  });
  (deck.scenarios ?? []).forEach((s, i) => {
    put(s.id, at('/scenarios', i));
  });
  (deck.paced ?? []).forEach((p, i) => {
    put(p.id, at('/paced', i));
  });
  if (seen.size === 0) c.add('nothing-asked', '');
}

function checkDates(c: Checking, today: string): void {
  const { effective, until, reviewBy, sources } = c.deck;
  const check = (date: string | undefined, path: string): boolean => {
    if (date === undefined || isDate(date)) return date !== undefined;
    c.add('date-impossible', path, { date });
    return false;
  };
  const from = check(effective, '/effective');
  if (check(until, '/until') && until !== undefined) {
    if (from && effective !== undefined && until < effective)
      c.add('until-early', '/until', { date: until, effective });
    else if (until < today) c.add('until-passed', '/until', { date: until });
  }
  sources.forEach((s, i) => {
    check(s.issued, at('/sources', i, 'issued'));
  });
  if (!check(reviewBy, '/reviewBy') || reviewBy === undefined) return;
  if (from && effective !== undefined && reviewBy < effective)
    c.add('review-early', '/reviewBy', { date: reviewBy, effective });
  else if (reviewBy < today) c.add('review-passed', '/reviewBy', { date: reviewBy });
}

/** A day that the calendar has. */
const isDate = (text: string): boolean => {
  const ms = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(text);
};
