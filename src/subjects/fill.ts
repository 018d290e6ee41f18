import type { Deck } from '../model/deck.ts';
import type { Drawn } from '../model/form.ts';
import { tradeForm } from '../model/trade-form.ts';

const PLACE = /\{([a-z][A-Za-z0-9]*)\}/g;

/** Names in the `{name}` places of a text, in order, repeats left out. */
export const placesIn = (text: string): string[] => [...new Set([...text.matchAll(PLACE)].map((m) => m[1] as string))];

/** Puts `say(name)` into each place; a place nobody knows stays as it is written. */
export const fillWith = (text: string, say: (name: string) => string | undefined): string =>
  text.replace(PLACE, (whole, name: string) => say(name) ?? whole);

/** Values of the day and conditions in trade form, without the unit: texts bring their own. */
export function dayWords(deck: Deck, drawn: Drawn): (name: string) => string | undefined {
  return (name) => {
    const value = Object.hasOwn(drawn, name) ? drawn[name] : undefined;
    if (value === undefined) return undefined;
    const day = deck.day?.find((d) => d.id === name);
    if (typeof value === 'number') return tradeForm(value, null, day?.show);
    const condition = deck.conditions?.find((c) => c.id === name);
    if (condition && 'yes' in condition) return value ? condition.yes : condition.no;
    if (condition && 'options' in condition) return condition.options[String(value)] ?? String(value);
    return String(value);
  };
}

/** Words that say a unit, whichever it is. */
const UNIT_SAID = /^[\s\u00a0-]*(?:knots?|feet|foot|degrees?|minutes?|seconds?|per ?cent)\b/i;

/** As `dayWords` fills it, with the unit of a value of the day where none follows in the text: "at 137 kt". */
export const fillWithUnits = (deck: Deck, drawn: Drawn, text: string): string => {
  const say = dayWords(deck, drawn);
  return text.replace(PLACE, (whole, name: string, at: number) => {
    const value = Object.hasOwn(drawn, name) ? drawn[name] : undefined;
    const day = deck.day?.find(({ id }) => id === name);
    const rest = text.slice(at + whole.length);
    const isSaid = UNIT_SAID.test(rest) || (day !== undefined && rest.trimStart().startsWith(day.unit));
    return day !== undefined && typeof value === 'number' && !isSaid
      ? tradeForm(value, day.unit, day.show)
      : (say(name) ?? whole);
  });
};

/**
 * With the labels of the day's values instead of numbers: "Passing V1", "never below V2". For lists and labels. Where the
 * label stands before its number already ("V1 {v1} kt") it is said once; its unit goes with the number.
 */
export const withLabels = (deck: Deck, text: string): string => {
  const bare = (deck.day ?? []).reduce((said, { id, label, unit }) => {
    const place = `{${id}}`;
    return said.replaceAll(`${label} ${place}`, place).replaceAll(`${place} ${unit}`, place);
  }, text);
  return fillWith(
    bare,
    (name) => deck.day?.find((d) => d.id === name)?.label ?? deck.conditions?.find((c) => c.id === name)?.label,
  );
};

/**
 * What holds at the beginning, where nothing is drawn: clauses that only say a value of the day ("…, V1 {v1} kt") say
 * nothing then, and go; elsewhere its label stands.
 */
export const startsUndrawn = (deck: Deck, text: string): string => {
  const empty = new Set(
    (deck.day ?? []).flatMap(({ id, label, unit }) => [`${label} {${id}} ${unit}`, `${label} {${id}}`]),
  );
  const clauses = text.split(/(?<=[.,;])\s+/);
  const left = clauses.filter((clause) => !empty.has(clause.replace(/[.,;]$/, '')));
  const said = withLabels(deck, left.join(' '));
  return left.length < clauses.length ? said.replace(/[.,;]$/, '') : said;
};
