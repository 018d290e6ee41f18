import { foldText } from '../../lib/fold-text.ts';
import type { FactLimit, Limit, LimitCase, NumberLimit } from '../../model/deck.ts';
import { isFact, isTable } from '../../model/deck.ts';
import { bandOf, within } from '../band.ts';
import {
  type Checking,
  checkGiven,
  checkIds,
  checkShow,
  checkSource,
  checkText,
  checkWhen,
  MOST,
  refer,
} from '../check.ts';
import { at } from '../finding.ts';

/** What the text of a limit says by itself. Gaps and overlaps of its cases are looked at per variant. */
export function checkLimit(c: Checking, limit: Limit, path: string): void {
  const { names } = c;
  checkText(c, limit.ask, at(path, 'ask'), MOST.ask, names);
  for (const key of ['why', 'slip'] as const) checkText(c, limit[key], at(path, key), MOST.note, names);
  checkWhen(c, limit.when, at(path, 'when'));
  checkAsksDay(c, limit, path);
  if (isTable(limit)) {
    checkSource(c, limit, path, undefined);
    limit.table.rows.forEach(([x], i, rows) => {
      const before = rows[i - 1];
      if (before && !(x > before[0])) c.add('rows-order', at(path, 'table', 'rows', i), { x, before: before[0] });
    });
    return;
  }
  const cases = limit.cases ?? [];
  checkIds(c, cases, at(path, 'cases'));
  cases.forEach((one, i) => {
    const here = at(path, 'cases', i);
    checkWhen(c, one.when, at(here, 'when'));
    checkGiven(c, one.given, at(here, 'given'));
    checkText(c, one.note, at(here, 'note'), MOST.note, names);
    checkSource(c, one, here, limit.source ?? null);
  });
  // A limit whose every case names its own source needs none itself.
  const covered = cases.length > 0 && cases.every((one) => one.source !== undefined);
  checkSource(c, limit, path, covered ? null : undefined);
  limit.slips?.forEach((s, i) => {
    checkText(c, s.note, at(path, 'slips', i, 'note'), MOST.note, names);
  });
  if (isFact(limit)) checkFact(c, limit, path);
  else checkNumber(c, limit, path);
}

function checkFact(c: Checking, limit: FactLimit, path: string): void {
  const options = Object.keys(limit.options);
  if (options.length < 2) c.add('options-few', at(path, 'options'), { least: 2 });
  for (const [option, text] of Object.entries(limit.options))
    checkText(c, text, at(path, 'options', option), MOST.option, c.names);
  if ((limit.is === undefined) === (limit.cases === undefined))
    c.add(limit.cases ? 'limit-both' : 'limit-empty', path, { wanted: 'is' });
  if (limit.is !== undefined) refer(c, 'option', limit.is, options, at(path, 'is'));
  limit.cases?.forEach((one, i) => {
    refer(c, 'option', one.is, options, at(path, 'cases', i, 'is'));
  });
  const right = limit.cases?.map((one) => one.is) ?? [limit.is];
  limit.slips?.forEach((s, i) => {
    refer(c, 'option', s.is, options, at(path, 'slips', i, 'is'));
    if (right.every((is) => is === s.is)) c.add('slip-right', at(path, 'slips', i), { value: s.is });
  });
}

type Numbers = Pick<LimitCase, 'value' | 'from' | 'to'>;

function checkNumber(c: Checking, limit: NumberLimit, path: string): void {
  const own = limit.value !== undefined || limit.from !== undefined || limit.to !== undefined;
  if (limit.cases && own) c.add('limit-both', path, { wanted: limit.sense === 'from-to' ? 'from and to' : 'value' });
  if (limit.strict && limit.sense !== 'at least' && limit.sense !== 'at most')
    c.add('strict-unfit', at(path, 'strict'), { sense: limit.sense });
  checkShow(c, limit.show, limit.unit, path);
  checkPicture(c, limit, path);
  const check = (one: Numbers, here: string): void => {
    const ranged = limit.sense === 'from-to';
    const fits = ranged
      ? one.from !== undefined && one.to !== undefined && one.value === undefined
      : one.value !== undefined && one.from === undefined && one.to === undefined;
    const wanted = ranged ? 'from and to' : 'value';
    if (!fits) {
      const empty = one.value === undefined && one.from === undefined && one.to === undefined;
      if (empty) c.add('limit-empty', here, { wanted });
      else c.add('sense-unfit', here, { sense: limit.sense, wanted });
    } else if (ranged && (one.from as number) >= (one.to as number) && limit.show !== 'direction')
      c.add('range-empty', here, { from: one.from as number, to: one.to as number });
  };
  if (!limit.cases) check(limit, path);
  limit.cases?.forEach((one, i) => {
    check(one, at(path, 'cases', i));
  });
  const band = bandOf(limit.accept);
  const right = (limit.cases ?? [limit]).flatMap((one) => one.value ?? []);
  limit.slips?.forEach((s, i) => {
    const taken = right.length > 0 && right.every((value) => within(s.value, value, band));
    if (taken && limit.sense !== 'from-to') c.add('slip-right', at(path, 'slips', i), { value: s.value });
  });
}

/** °: beyond it no aeroplane is put by a procedure, and the sketch of it would say nothing. */
const STEEPEST = 45;

/** A picture of the pitch is drawn of angles of the nose against the horizon. */
function checkPicture(c: Checking, limit: NumberLimit, path: string): void {
  if (limit.picture === undefined) return;
  const angles = (limit.cases ?? [limit]).flatMap(({ value, from, to }) =>
    [value, from, to].filter((x) => x !== undefined),
  );
  if (limit.unit !== '°' || limit.show !== undefined || angles.some((one) => Math.abs(one) > STEEPEST))
    c.add('picture-unfit', at(path, 'picture'), { most: STEEPEST });
}

/** Words that add nothing to the name of a value: "What is V1?" asks for V1. */
const FILLER = /\b(?:what|which|is|are|the|of|for|your|our|today|todays|s|value|speed|take|off|takeoff|number)\b/g;
const bare = (text: string): string => foldText(foldText(text).replace(FILLER, ' '));

/** What the day gives cannot be memorised. */
function checkAsksDay(c: Checking, limit: Limit, path: string): void {
  const ask = bare(limit.ask);
  const day = (c.deck.day ?? []).find(
    (d) => [d.id, d.label].some((name) => bare(name) !== '' && bare(name) === ask) || limit.ask.trim() === `{${d.id}}`,
  );
  if (day) c.add('limit-asks-day', at(path, 'ask'), { label: day.label });
}
