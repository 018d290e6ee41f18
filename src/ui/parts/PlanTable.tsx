import type { Outlook } from '../../memory/outlook.ts';
import type { PlanRecord } from '../models/plan-record.ts';

type Band = Outlook['kept']['all'];

/** "81 to 90 %": in eight of ten cases. Of a few questions all may well be right, but nobody is promised it. */
const bandWords = (band: Band | null): string => {
  if (band === null) return '–';
  const [low, high] = [Math.min(99, Math.round(band.low * 100)), Math.round(band.high * 100)];
  return low === high ? `${low} %` : `${low} to ${high} %`;
};

/** Recall on the day with the plan and without, overall, critical, and for each procedure. */
export function PlanTable(props: { readonly record: PlanRecord; readonly outlook: Outlook }) {
  const { record, outlook } = props;
  const { kept, stopped } = outlook;
  const rows: readonly (readonly [string, Band | null, Band | null])[] = [
    ['Everything', kept.all, stopped.all],
    ...(kept.critical === null ? [] : ([['Of it, critical', kept.critical, stopped.critical]] as const)),
    ...record.groups.map((title, g) => [title, kept.groups[g] ?? null, stopped.groups[g] ?? null] as const),
  ];
  return (
    <>
      <table class="forecast outlook">
        <caption class="hidden-visually">Predicted recall on the day, for each procedure</caption>
        <thead>
          <tr>
            <th scope="col">if you keep to the plan</th>
            <th scope="col">if you stop now</th>
          </tr>
        </thead>
        {rows.map(([title, plan, stop], i) => (
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
      <p class="soft small">
        Of ten learners where you are now, eight would come out between these numbers. What you have not met yet counts
        as not known.
      </p>
    </>
  );
}
