import type { DealtDetail, DealtRow } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';

/** What was given to each row, and that it is wrong; then what is right, and why. The wrong ones are in sight first. */
export function Dealt(props: { readonly detail: DealtDetail; readonly told: boolean }) {
  const { detail, told } = props;
  const rows = told ? detail.rows : [...detail.rows].sort((a, b) => Number(a.isRight) - Number(b.isRight));
  return (
    <>
      {detail.note !== undefined && <p class="note bad">{detail.note}</p>}
      <ul class="run">
        {rows.map((row) => (
          <Row key={row.id} row={row} told={told} />
        ))}
      </ul>
      <More why={detail.why} usualSlip={detail.usualSlip} source={detail.source} />
    </>
  );
}

function Row(props: { readonly row: DealtRow; readonly told: boolean }) {
  const { row, told } = props;
  const sign = row.isRight ? '✓' : '✗';
  return (
    <li class={`run-told ${row.isRight || told ? 'right' : 'wrong'}`}>
      <span class="margin">
        <span class="sign" aria-hidden="true">
          {told ? '' : sign}
        </span>
      </span>
      <div>
        <p dir="auto">
          <Text text={row.text} />
        </p>
        {!row.isRight && !told && (
          <p class="given-answer">
            wrong: you gave{' '}
            <s>
              <Text text={row.given} />
            </s>
            {row.off !== undefined && `, ${row.off}`}
          </p>
        )}
        <p>
          {row.isRight ? <span class="soft">right: </span> : <span class="soft">It is </span>}
          <span class="dealt-right">
            <Text text={row.right} />
          </span>
        </p>
        {(row.notes ?? []).map((line) => (
          <p class="small" key={line}>
            <Text text={line} />
          </p>
        ))}
        <More why={row.why} usualSlip={row.usualSlip} source={row.source} />
      </div>
    </li>
  );
}

function More(props: {
  readonly why: string | undefined;
  readonly usualSlip: string | undefined;
  readonly source: string | undefined;
}) {
  const { why, usualSlip, source } = props;
  return (
    <>
      {why !== undefined && (
        <p class="small">
          <Text text={why} />
        </p>
      )}
      {usualSlip !== undefined && (
        <p class="small">
          <span class="soft">Usual slip: </span>
          <Text text={usualSlip} />
        </p>
      )}
      {source !== undefined && <p class="small soft">{source}</p>}
    </>
  );
}
