import type { PrintRow, PrintStep } from '../../drill/print/procedure.ts';
import { WalkText } from '../parts/Walk.tsx';

/** Steps of a procedure: the pilot flying on the left, the pilot monitoring on the right. */
export function Rows(props: { readonly rows: readonly PrintRow[]; readonly heads: readonly [string, string] }) {
  return (
    <div class="duties">
      <div class="duty-head small soft">
        <p>{props.heads[0]}</p>
        <p>{props.heads[1]}</p>
      </div>
      <List rows={props.rows} />
    </div>
  );
}

/** @param props.narrow within a lane: its steps take all of its width */
function List(props: { readonly rows: readonly PrintRow[]; readonly narrow?: boolean }) {
  const { narrow = false } = props;
  return (
    <>
      {props.rows.map((row, i) =>
        'side' in row ? (
          <Duty key={row.line.id} step={row} />
        ) : (
          // Groups have no id of their own, and nothing on paper changes places.
          <div class="duty-group" key={`group ${i}`}>
            {row.condition !== '' && <p class="what">{row.condition}</p>}
            {row.together && <p class="small soft">At once, in any order</p>}
            {row.lanes.length > 1 && !row.together && (
              <p class="small soft">Side by side: each column in its own order</p>
            )}
            {row.lanes.length > 1 ? (
              <div class="duty-lanes">
                {row.lanes.map((lane, k) => (
                  <div key={`lane ${k}`}>
                    <List rows={lane} narrow />
                  </div>
                ))}
              </div>
            ) : (
              <div class={narrow ? '' : 'duties'}>
                <List rows={row.lanes[0] ?? []} narrow={narrow} />
              </div>
            )}
          </div>
        ),
      )}
    </>
  );
}

function Duty(props: { readonly step: PrintStep }) {
  const { side, line } = props.step;
  return (
    <div class={`duty duty-${side}`}>
      {line.by !== undefined && <p class="small">{line.by}</p>}
      <WalkText line={line} />
    </div>
  );
}
