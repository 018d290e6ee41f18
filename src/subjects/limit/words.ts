import type { Deck, Id, NumberLimit, Sense, Step, TableLimit } from '../../model/deck.ts';
import { isFact } from '../../model/deck.ts';
import { tradeForm } from '../../model/trade-form.ts';
import type { ResolvedCase, ResolvedLimit, View } from '../resolved.ts';

/** "at least", "below", …: what stands before the number; '' for exactly and from-to. */
function senseWords(sense: Sense, strict: boolean | undefined): string {
  switch (sense) {
    case 'at least':
      return strict ? 'above' : 'at least';
    case 'at most':
      return strict ? 'below' : 'at most';
    case 'about':
      return 'about';
    case 'exactly':
    case 'from-to':
      return '';
  }
}

/** What stands before each number of a limit or a table. */
export const limitSense = (limit: NumberLimit | TableLimit): string =>
  senseWords(limit.sense ?? 'exactly', 'strict' in limit ? limit.strict : undefined);

/** The answer of a case in trade form: "at least 250 ft AAL", "5° to 8°", the words of a choice. */
export function caseWords({ limit }: ResolvedLimit, c: ResolvedCase): string {
  if (isFact(limit)) return limit.options[c.value as Id] ?? String(c.value);
  const show = 'show' in limit ? limit.show : undefined;
  const numbers = (c.value as readonly number[]).map((x) => tradeForm(x, limit.unit, show, limit.reference));
  const sense = limitSense(limit);
  return `${sense === '' ? '' : `${sense} `}${numbers.join(' to ')}`;
}

/** The same as what a step waits for, the number first: "250 ft AAL or more". "At most 55 kt" is no moment. */
function reachedWords(limit: ResolvedLimit, c: ResolvedCase): string {
  const words = caseWords(limit, c);
  const bound = /^at (least|most) /.exec(words);
  return bound === null ? words : `${words.slice(bound[0].length)} or ${bound[1] === 'least' ? 'more' : 'less'}`;
}

/** Angles of the nose against the horizon, °, one or two, where the limit is drawn as a pitch. */
export const pitchOf = ({ limit }: ResolvedLimit, { value }: ResolvedCase): readonly number[] | undefined =>
  'picture' in limit && limit.picture === 'pitch' && typeof value !== 'string' ? value : undefined;

/** Every case of a limit as one text: "at least 200 ft AAL; Flaps 2: at least 300 ft AAL". null where none holds. */
export const limitWords = (view: View, id: Id): string | null => everyCase(view, id, caseWords);

/** The same for a cue: "200 ft AAL or more; Flaps 2: 300 ft AAL or more". */
export const cueLimitWords = (view: View, id: Id): string | null => everyCase(view, id, reachedWords);

function everyCase(view: View, id: Id, say: (limit: ResolvedLimit, c: ResolvedCase) => string): string | null {
  const resolved = view.limits.find((l) => l.limit.id === id);
  if (!resolved || resolved.cases.length === 0) return null;
  return resolved.cases.map((c) => `${c.given === '' ? '' : `${c.given}: `}${say(resolved, c)}`).join('; ');
}

/** "V1 137 kt"; the label alone where it was not drawn. */
export function dayValueWords(deck: Deck, id: string, drawn: Readonly<Record<string, unknown>>): string {
  const day = deck.day?.find((d) => d.id === id);
  if (!day) return id;
  const value = Object.hasOwn(drawn, id) ? drawn[id] : undefined;
  return typeof value === 'number' ? `${day.label} ${tradeForm(value, day.unit, day.show)}` : day.label;
}

/**
 * As the drill says it: "55 kt or less".
 * @param view whose limits are said; without one, by their name
 * @param limitIn how the drill says a limit there: in a bound as elsewhere, "at most 55 kt"
 */
export function cueWords(deck: Deck, view: View | undefined, cue: Step['cue'], limitIn = cueLimitWords): string {
  if (cue === undefined) return '';
  const event = deck.conditions?.find((c) => c.id === cue.event);
  return [
    cue.text,
    cue.limit === undefined ? undefined : ((view && limitIn(view, cue.limit)) ?? cue.limit),
    cue.day === undefined ? undefined : dayValueWords(deck, cue.day, {}),
    event && 'yes' in event ? event.yes : cue.event,
  ]
    .filter((x) => x !== undefined && x !== '')
    .join(', ');
}
