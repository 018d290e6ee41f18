/** What a field of a deck is called, and what stands in it, in words. */
import type { Json } from '../../lib/canonical-json.ts';
import { dateWords, dayOfIso } from '../../lib/date-words.ts';
import type { Amount, Band, Bound, Deck, Given, Id, Unit, VariantAxis, Wait, When } from '../../model/deck.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { formulaWords } from '../../subjects/formula-words.ts';
import { parseFormula } from '../../subjects/formulas.ts';
import { givenWords } from '../../subjects/limit/cases.ts';
import { cueWords, limitWords } from '../../subjects/limit/words.ts';
import type { View } from '../../subjects/resolved.ts';
import type { Things } from '../../subjects/things.ts';
import { crewWords } from './answers.ts';

/** A deck being put into words. */
export interface Saying {
  readonly deck: Deck;
  readonly things: Things;
  /** Any view: its limits are said in conditions. */
  readonly view: View | undefined;
  /** Words of a step by its id; the id where there is none. */
  readonly step: (id: Id) => string;
}

const NAMES: Readonly<Record<string, string>> = {
  accept: 'accepted distance',
  after: 'wait',
  alsoDo: 'accepted wordings of the action',
  alsoSay: 'accepted wordings of the callout',
  amendment: 'note for the learner',
  answers: 'responds to',
  ask: 'question',
  basis: 'basis',
  by: 'who',
  called: 'called with the words',
  calledBy: 'called by',
  checkedBy: 'checked by',
  do: 'action',
  done: 'how it is done',
  draw: 'drawn value',
  effective: 'takes effect',
  given: 'circumstances',
  if: 'holds only if',
  ifNoAnswer: 'without a response',
  is: 'value',
  issued: 'date of issue',
  let: 'computed value',
  madeBy: 'made by',
  method: 'between the rows',
  nearV1: 'events near V1',
  needs: 'needs before it',
  number: 'formula',
  oneOf: 'drawn from',
  order: 'order',
  place: 'stands in',
  reference: 'datum',
  require: 'requirement',
  reviewBy: 'review date',
  rows: 'rows',
  rule: 'amount by the rule',
  say: 'callout',
  sense: 'sense',
  show: 'trade form',
  slip: 'usual slip',
  slips: 'usual slips',
  strict: 'strictly above or below',
  strangers: 'steps that do not belong',
  // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
  then: 'outcome',
  together: 'done at once',
  until: 'lasts until',
  when: 'holds for',
  where: 'panel area',
  why: 'reason',
};
/** Whose own key says nothing else elsewhere: `until` and `from` of a deck, a draw, a step differ. */
const AT_HEAD: Readonly<Record<string, string>> = { until: 'in force until' };

export const fieldName = (key: string, head = false): string =>
  (head ? AT_HEAD[key] : undefined) ?? NAMES[key] ?? key.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();

/** Two truths of a facet without a name. */
const yes = (value: unknown): string => (value === true ? 'yes' : 'no');
const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !isList(value);

/** @param unit of the thing that the field belongs to, if it has one */
export function fieldWords(s: Saying, key: string, value: Json, unit?: Unit): string {
  if (key === 'when') return whenWords(s.deck.variants ?? [], value as When);
  if (key === 'given') return givenWords(s.deck, value as Given);
  if (key === 'accept') return bandWords(value as Band, unit ?? null);
  if (key === 'cue') return cueWords(s.deck, s.view, value as never);
  if (key === 'from' || key === 'until') if (isObject(value)) return boundWords(s, value as Bound);
  if (key === 'after' && isObject(value)) return waitWords(s, value as unknown as Wait);
  if (key === 'if' && typeof value === 'string') return conditionWords(s, value);
  if (typeof value === 'string') return textWords(s, key, value);
  if (typeof value === 'boolean') return yes(value);
  if (typeof value === 'number')
    return unit !== undefined && ['value', 'from', 'to', 'step'].includes(key) ? tradeForm(value, unit) : String(value);
  if (isList(value)) return value.map((one) => elementWords(s, key, one as Json)).join('; ');
  return JSON.stringify(value);
}

const DATES: ReadonlySet<string> = new Set(['effective', 'until', 'reviewBy', 'issued']);

function textWords(s: Saying, key: string, text: string): string {
  if (DATES.has(key)) {
    const day = dayOfIso(text);
    return day === null ? text : dateWords(day);
  }
  if (key === 'limit') return s.things.limits.get(text)?.ask ?? text;
  if (key === 'by' || key === 'calledBy') return crewWords(s.things, text);
  if (key === 'answers') return s.step(text);
  if (key !== 'rule') return text;
  const [scenario = '', ask = ''] = text.split('#');
  return s.things.scenarios.get(scenario)?.asks.find((a) => a.id === ask)?.ask ?? text;
}

function elementWords(s: Saying, key: string, value: Json): string {
  if (typeof value === 'string') return key === 'needs' || key === 'order' ? s.step(value) : value;
  if (!isObject(value)) return JSON.stringify(value);
  const { note, ...rest } = value;
  const said = Object.values(rest).map((one) => (isObject(one) ? JSON.stringify(one) : String(one)));
  return note === undefined ? said.join(' ') : `${said.join(' ')}: ${String(note)}`;
}

/** "Engine A or Engine B, Coastal"; "not Engine A". */
export function whenWords(axes: readonly VariantAxis[], when: When | undefined): string {
  if (when === undefined) return '';
  const { not } = when;
  if (isObject(not)) return `not ${whenWords(axes, not as When)}`;
  return Object.entries(when as Readonly<Record<Id, Id | readonly Id[]>>)
    .map(([axis, wanted]) => {
      const options = axes.find((a) => a.id === axis)?.options ?? {};
      return [wanted]
        .flat()
        .map((o) => options[o as Id] ?? o)
        .join(' or ');
    })
    .join(', ');
}

export function conditionWords({ deck, view }: Saying, text: string): string {
  const tree = view && parseFormula(text);
  return tree ? formulaWords(deck, view, null, tree) : text;
}

const bandWords = (band: Band, unit: Unit | null): string =>
  typeof band === 'number'
    ? `±${tradeForm(band, unit)}`
    : `+${tradeForm(band.plus, unit)} −${tradeForm(band.minus, unit)}`;

const boundWords = (s: Saying, { text, limit, day }: Bound): string =>
  cueWords(
    s.deck,
    s.view,
    { ...(text !== undefined && { text }), ...(limit !== undefined && { limit }), ...(day !== undefined && { day }) },
    limitWords,
  );

function waitWords(s: Saying, { step, atLeast, atMost }: Wait): string {
  const amount = ({ limit, value, unit }: Amount): string =>
    limit === undefined ? tradeForm(value ?? 0, unit ?? null) : (s.things.limits.get(limit)?.ask ?? limit);
  const parts = [atLeast ? `at least ${amount(atLeast)}` : '', atMost ? `at most ${amount(atMost)}` : ''];
  return `${parts.filter((x) => x !== '').join(', ')} after ${s.step(step)}`.trim();
}
