import { dayOfIso } from '../lib/date-words.ts';
import { parseItemKey } from '../model/item.ts';
import { LEAVABLE, type Leavable, type Report, type ReportDeck, type ReportItem } from '../model/report.ts';
import { MOST_TRAINEE, traineeOf } from '../model/trainee.ts';

/** What makes no sense in a report that has the right shape: where, and what; null where all does. */
export const reportTrouble = (report: Report): string | null => {
  for (const found of troubles(report)) if (found !== null) return found;
  return null;
};

/** The first that was there before. */
const twice = (list: readonly string[]): string | undefined => {
  const seen = new Set<string>();
  return list.find((one) => seen.size === seen.add(one).size);
};
const isDate = (text: string): boolean => dayOfIso(text) !== null;

/** Three decimals: more would tell nothing, and is not what Recency writes. */
const isShare = (share: number | null): boolean => share === null || Math.round(share * 1000) / 1000 === share;

function* troubles(report: Report): Generator<string | null> {
  const { trainee, made, checkDate, plan, decks, days, minutes, leftOut } = report;
  if (traineeOf(trainee) !== trainee)
    yield `the trainee's name is longer than ${MOST_TRAINEE} characters, or has signs that do not show`;
  if (!isDate(made)) yield `made: ${made} is no day of the calendar`;
  if (checkDate !== null && !isDate(checkDate)) yield `checkDate: ${checkDate} is no day of the calendar`;
  yield leftOutTrouble(leftOut, 'days', days !== undefined);
  yield leftOutTrouble(leftOut, 'minutes', minutes !== undefined);
  if (leftOut.join() !== LEAVABLE.filter((part) => leftOut.includes(part)).join())
    yield 'leftOut: a part comes twice, or in another order';
  for (const [i, day] of (days ?? []).entries()) {
    if (!isDate(day)) yield `days: ${day} is no day of the calendar`;
    if (i > 0 && (days?.[i - 1] ?? '') >= day) yield `days: ${day} does not come after the day before it`;
  }
  const same = twice(decks.map(({ id }) => id));
  if (same !== undefined) yield `the deck ${same} comes twice`;
  for (const deck of decks) {
    const found = deckTrouble(deck, report);
    yield found === null ? null : `${deck.id}: ${found}`;
  }
  if (plan !== undefined && (checkDate === null || checkDate < made))
    yield 'plan: there is one, and no check ahead to plan for';
  if (plan !== undefined && !isShare(plan.recall)) yield 'plan: its recall has more than three decimals';
}

const leftOutTrouble = (leftOut: readonly Leavable[], part: Leavable, isThere: boolean): string | null => {
  if (leftOut.includes(part) !== isThere) return null;
  return isThere ? `${part} is there, though it is named as left out` : `${part} is missing, and not named as left out`;
};

const deckTrouble = (deck: ReportDeck, report: Report): string | null => {
  const { leftOut } = report;
  const whole =
    leftOutTrouble(leftOut, 'queries', deck.queries !== undefined) ??
    leftOutTrouble(leftOut, 'slips', deck.slips !== undefined);
  if (whole !== null) return whole;
  const view = twice(deck.variants);
  if (view !== undefined) return `the variant ${view} comes twice`;
  const keys = new Set<string>();
  for (const item of deck.items) {
    const found = keys.has(item.key) ? 'comes twice' : itemTrouble(item, deck, report);
    if (found !== null) return `${item.key}: ${found}`;
    keys.add(item.key);
  }
  for (const { items, on } of deck.queries ?? []) {
    if (!isDate(on)) return `queries: ${on} is no day of the calendar`;
    for (const key of items) if (isOther(key, deck)) return `queries: ${key} is no item of this deck`;
  }
  for (const { key } of deck.slips ?? []) if (isOther(key, deck)) return `slips: ${key} is no item of this deck`;
  if (deck.slips === undefined && deck.slipsLeftOut !== undefined)
    return 'slipsLeftOut is there, though slips are named as left out';
  return formerTrouble(deck, leftOut);
};

const formerTrouble = ({ former }: ReportDeck, leftOut: readonly Leavable[]): string | null => {
  if (former === undefined) return null;
  const { verdicts, sureWrong } = former;
  if (sureWrong !== undefined && sureWrong > verdicts[0]) return 'former: was sure and wrong more often than missed';
  const found = leftOutTrouble(leftOut, 'sure', sureWrong !== undefined);
  return found === null ? null : `former: ${found}`;
};

const isOther = (key: string, deck: ReportDeck): boolean => parseItemKey(key)?.deck !== deck.id;

const itemTrouble = (item: ReportItem, deck: ReportDeck, { leftOut, checkDate, made }: Report): string | null => {
  const { key, now, day, check, verdicts, sureWrong, last } = item;
  if (isOther(key, deck)) return 'is no item of this deck';
  if (!isShare(now) || !isShare(day)) return 'a recall chance has more than three decimals';
  if (day !== null && checkDate === null) return 'has a recall chance on a check date, and there is none';
  if (check !== undefined) {
    if (!isDate(check)) return `check: ${check} is no day of the calendar`;
    // ISO dates are in order as texts are.
    if (checkDate === null || check >= checkDate) return `check: ${check} is not before the check of all`;
    if (check < made) return `check: ${check} was past when the report was made`;
  }
  if (sureWrong !== undefined && sureWrong > verdicts[0]) return 'was sure and wrong more often than missed';
  if (typeof last === 'string' && !isDate(last)) return `last: ${last} is no day of the calendar`;
  return (
    leftOutTrouble(leftOut, 'sure', sureWrong !== undefined) ?? leftOutTrouble(leftOut, 'days', last !== undefined)
  );
};
