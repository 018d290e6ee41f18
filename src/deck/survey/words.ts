import type { Deck, NumberAsk, Show, Unit } from '../../model/deck.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { UNIT_FACTS } from '../../model/units.ts';
import type { ResolvedScenario } from '../../subjects/resolved.ts';

type Value = number | string | boolean | undefined;

/** What stands at the head of a column of drawn values. */
export function labelOf(deck: Deck, { scenario }: ResolvedScenario, name: string): string {
  const own = scenario.draw[name];
  if (own) return own.label ?? name;
  return [...(deck.day ?? []), ...(deck.conditions ?? [])].find(({ id }) => id === name)?.label ?? name;
}

/** A drawn value as the trade writes it, with its unit where the deck gives one. */
export function drawnWords(deck: Deck, { scenario }: ResolvedScenario, name: string, value: Value): string {
  if (value === undefined) return '';
  const own = scenario.draw[name];
  if (own) {
    if (typeof value === 'number') {
      const { unit, show } = own as { readonly unit?: Unit; readonly show?: Show };
      return tradeForm(value, unit ?? null, show);
    }
    const words = 'oneOf' in own && !Array.isArray(own.oneOf) ? (own.oneOf as Record<string, string>) : {};
    return eventWords(words, String(value));
  }
  const day = deck.day?.find(({ id }) => id === name);
  if (day) return tradeForm(Number(value), day.unit, day.show);
  const condition = deck.conditions?.find(({ id }) => id === name);
  if (condition && 'yes' in condition) return value === true ? condition.yes : condition.no;
  if (condition && 'options' in condition) return condition.options[String(value)] ?? String(value);
  return typeof value === 'number' ? tradeForm(value, condition?.unit ?? null) : String(value);
}

/** What an event shows; of several with nothing to show, which one. */
function eventWords(words: Readonly<Record<string, string>>, id: string): string {
  const shown = words[id];
  if (shown === undefined || shown.trim() !== '') return shown ?? id;
  const blank = Object.values(words).filter((text) => text.trim() === '').length;
  return blank > 1 ? `nothing to show (${id})` : 'nothing to show';
}

/** A right answer, so far that it shows on which side of a bound it lies. */
export function numberWords(ask: NumberAsk, value: number): string {
  const { unit, show } = ask;
  const counted = UNIT_FACTS[unit].whole ? (Math.abs(value) < 1000 ? 1 : 0) : 2;
  const places = show === 'direction' || show === 'runway' ? 0 : counted;
  return tradeForm(Number(value.toFixed(places)), unit, show);
}
