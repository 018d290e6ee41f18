import type { Outlook } from '../../memory/outlook.ts';
import type { PlanRecord } from '../models/plan-record.ts';
import { plural } from '../words.ts';
import { Fold } from './Later.tsx';

type Band = Outlook['kept']['all'];

/** "81 to 90 %": in eight of ten cases. Of a few questions all may well be right, but nobody is promised it. */
const bandWords = (band: Band | null): string => {
  if (band === null) return '–';
  const [low, high] = [Math.min(99, Math.round(band.low * 100)), Math.round(band.high * 100)];
  return low === high ? `${low} %` : `${low} to ${high} %`;
};

type Row = readonly [title: string, kept: Band | null, stopped: Band | null];

/** Recall on the day with the plan and without, overall and critical. */
export function PlanTable(props: { readonly outlook: Outlook }) {
  const { kept, stopped } = props.outlook;
  return (
    <Table
      caption="Predicted recall on the day"
      rows={[
        ['Everything', kept.all, stopped.all],
        ...(kept.critical === null ? [] : ([['Of it, critical', kept.critical, stopped.critical]] as const)),
      ]}
    />
  );
}

/** The same for each procedure, limits and scenarios. */
export function PlanParts(props: { readonly record: PlanRecord; readonly outlook: Outlook }) {
  const { record, outlook } = props;
  const rows = record.groups.map(
    (title, g): Row => [title, outlook.kept.groups[g] ?? null, outlook.stopped.groups[g] ?? null],
  );
  const middle = ([, band]: Row) => (band === null ? 2 : band.low + band.high);
  const [lowest] = [...rows].sort((a, b) => middle(a) - middle(b));
  if (lowest === undefined) return null;
  return (
    <Fold
      title="Part by part"
      said={`${plural(rows.length, 'part')}, the lowest: ${lowest[0]}, ${bandWords(lowest[1])}`}
    >
      {() => (
        <>
          <Table caption="Predicted recall on the day, for each procedure" rows={rows} />
          <p class="soft small">
            Of ten learners where you are now, eight would come out between these numbers. What you have not met yet
            counts as not known. Counted are places of steps, numbers and rules; not callouts, cues or crew.
          </p>
        </>
      )}
    </Fold>
  );
}

function Table(props: { readonly caption: string; readonly rows: readonly Row[] }) {
  return (
    <table class="forecast outlook">
      <caption class="hidden-visually">{props.caption}</caption>
      <thead>
        <tr>
          <th scope="col">if you keep to the plan</th>
          <th scope="col">if you stop now</th>
        </tr>
      </thead>
      {props.rows.map(([title, plan, stop], i) => (
        <tbody key={`${i} ${title}`}>
          <tr>
            <th scope="rowgroup" colSpan={2}>
              {title}
            </th>
          </tr>
          <tr>
            <td class="number">{bandWords(plan)}</td>
            <td class="number idle">{bandWords(stop)}</td>
          </tr>
        </tbody>
      ))}
    </table>
  );
}
