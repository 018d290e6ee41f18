import type { KnownDecks } from '../../class/known.ts';
import type { ClassSlip, ClassSlips } from '../../class/told.ts';
import type { NeverAsked, WeakItem } from '../../class/weakest.ts';
import { TARGET, TARGET_CRITICAL } from '../../memory/day-order.ts';
import { Folded } from '../parts/Later.tsx';
import { plural } from '../words.ts';
import { share } from './words.ts';

interface BarRow {
  readonly key: string;
  readonly label: string;
  /** Under it. */
  readonly under?: string;
  /** 0..1 */
  readonly length: number;
  /** Where it should reach, 0..1. */
  readonly aim?: number;
  readonly figure: string;
}

const HIGH = 10;

/** A bar a row, each under what it stands for. */
function Bars(props: { readonly rows: readonly BarRow[]; readonly said: string }) {
  return (
    <figure class="class-bars" aria-label={props.said}>
      {props.rows.map(({ key, label, under, length, aim, figure }) => (
        <div class="class-bar" key={key}>
          <span dir="auto">
            {label}
            {under !== undefined && (
              <>
                <br />
                <span class="small soft">{under}</span>
              </>
            )}
          </span>
          <span class="number">{figure}</span>
          <svg viewBox={`0 0 100 ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
            <rect class="ground" width="100" height={HIGH} />
            <rect class="bar-of" width={(100 * length).toFixed(2)} height={HIGH} />
            {aim !== undefined && <rect class="aim" x={100 * aim - 0.3} width="0.6" height={HIGH} />}
          </svg>
        </div>
      ))}
    </figure>
  );
}

/** Items that the class recalls worst, of those that somebody was asked. */
export function Weakest(props: { readonly items: readonly WeakItem[]; readonly never: NeverAsked }) {
  const { items, never } = props;
  if (items.length === 0 && never.items === 0) return null;
  return (
    <section class="stack">
      <h2>Weakest items of the class</h2>
      {items.length > 0 && <WeakBars items={items} />}
      {never.items > 0 && (
        <p>
          {plural(never.items, 'item')} nobody was asked yet
          {never.critical > 0 && `, of them ${never.critical} critical`}.
        </p>
      )}
    </section>
  );
}

function WeakBars(props: { readonly items: readonly WeakItem[] }) {
  const { items } = props;
  const worst = items[0] as WeakItem;
  return (
    <>
      <p class="small soft">
        Mean recall on the check day over those who were asked the item at least once; the line is the target.
      </p>
      <Bars
        said={`Mean recall of the ${items.length} weakest items. Lowest: ${worst.label}, ${share(worst.recall)}.`}
        rows={items.map(({ key, label, critical, rule, recall, trainees, short }) => ({
          key,
          label: critical ? `${label} · critical` : label,
          length: recall,
          aim: critical ? TARGET_CRITICAL : TARGET,
          under: `${rule === null ? '' : `${rule}; `}asked of ${plural(trainees, 'trainee')}, below its target with ${short}`,
          figure: share(recall),
        }))}
      />
      <Folded summary="Weakest items as a table">
        {() => (
          <table class="forecast">
            <caption class="hidden-visually">Weakest items of the class</caption>
            <thead>
              <tr>
                <th scope="col">Item</th>
                <th scope="col">recall</th>
                <th scope="col">below target</th>
              </tr>
            </thead>
            <tbody>
              {items.map(({ key, label, critical, recall, short, trainees }) => (
                <tr key={key}>
                  <th scope="row" dir="auto">
                    {label}
                    {critical && ' · critical'}
                  </th>
                  <td class="number">{share(recall)}</td>
                  <td class="number">
                    {short} of {trainees}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Folded>
    </>
  );
}

/** What was answered wrongly most often. */
export function Slips(props: { readonly told: ClassSlips; readonly decks: KnownDecks }) {
  const { decks, told } = props;
  const { slips, kinds, leftOut, unnamed } = told;
  if (slips.length === 0) return null;
  const most = Math.max(...slips.map(({ trainees }) => trainees));
  const keyOf = ({ key, given }: ClassSlip) => JSON.stringify([key, given]);
  const named = ({ asked, given }: ClassSlip) => `${asked}: ${given}`;
  const [first] = slips as [ClassSlip];
  return (
    <section class="stack">
      <h2>Commonest slips</h2>
      <p class="small soft">
        Wrong answers, by how many trainees. A report has the three commonest of each item; of orders and questions with
        several fields it says no wrong answer: they count as missed.
        {unnamed > 0 && ` So ${plural(unnamed, 'wrong answer is', 'wrong answers are')} counted and not named.`}
        {kinds > slips.length && ` The ${slips.length} commonest of ${kinds}.`}
        {leftOut > 0 && ` ${plural(leftOut, 'trainee')} left theirs out.`}
      </p>
      <Bars
        said={`Trainees who made each of the ${slips.length} commonest slips. First: ${named(first)}, ${plural(first.trainees, 'trainee')}.`}
        rows={slips.map((slip) => ({
          key: keyOf(slip),
          label: named(slip),
          ...(slip.right !== null && { under: `right: ${slip.right}` }),
          length: slip.trainees / most,
          figure: plural(slip.trainees, 'trainee'),
        }))}
      />
      <Folded summary="Commonest slips as a table">
        {() => (
          <table class="forecast">
            <caption class="hidden-visually">Commonest slips of the class</caption>
            <thead>
              <tr>
                <th scope="col">Asked, and given</th>
                <th scope="col">trainees</th>
                <th scope="col">times</th>
              </tr>
            </thead>
            <tbody>
              {slips.map((slip) => (
                <tr key={keyOf(slip)}>
                  <th scope="row" dir="auto">
                    {named(slip)}
                    {slip.right !== null && <span class="small soft"> · right: {slip.right}</span>}
                    {decks.size > 1 && <span class="small soft"> · {decks.get(slip.deck)?.title ?? slip.deck}</span>}
                  </th>
                  <td class="number">{slip.trainees}</td>
                  <td class="number">{slip.times}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Folded>
    </section>
  );
}
