import { practisesLess, type Row } from '../../class/table.ts';
import type { Packed } from '../../class/types.ts';
import type { IsoDate } from '../../model/deck.ts';
import { plural } from '../words.ts';
import {
  ageWords,
  dayIn,
  daysLeftWords,
  itemsWords,
  LEFT_OUT_WORDS,
  minutesWords,
  planWords,
  revisionWords,
  sureWrongWords,
} from './words.ts';

/** What a trainee's newest report says at the head: of when it is, what is planned, what was done. */
export function Facts(props: { readonly row: Row; readonly packed: Packed; readonly today: IsoDate }) {
  const { row, packed, today } = props;
  return (
    <>
      <dl class="facts class-facts">
        <dt>Report</dt>
        <dd>
          {packed.n}, made on {dayIn(today, packed.made)}
          {packed.made > row.person.newest.made && ' by a clock that is ahead'}, {ageWords(row.age)}
        </dd>
        <dt>Check</dt>
        <dd>
          {packed.checkDate === null ? 'no date' : `${dayIn(today, packed.checkDate)}, ${daysLeftWords(row.daysLeft)}`}
        </dd>
        {row.checks.length > 0 && (
          <>
            <dt>Checked before</dt>
            <dd>
              {row.checks.map((check) => (
                <p key={check.date}>
                  {check.columns.map(({ title }) => title).join(', ')}: {dayIn(today, check.date)},{' '}
                  {daysLeftWords(check.daysLeft)}; minutes until then: {minutesWords(check)}
                </p>
              ))}
            </dd>
          </>
        )}
        <dt>Plans</dt>
        <dd>{plural(packed.planned, 'minute')} a day</dd>
        {row.practised !== null && (
          <>
            <dt>Minutes spent answering, of those planned from the first day to the report</dt>
            <dd>
              {row.practised.minutes} of {row.practised.planned}; reading is not counted
              {practisesLess(row) &&
                '. Far less than planned: what their app expects holds only if the minutes are kept'}
            </dd>
          </>
        )}
        {row.plan !== null && (
          <>
            <dt>What their own app expects of that on the check day</dt>
            <dd>{planWords(row.plan)}</dd>
          </>
        )}
        {row.plan?.needed !== null && (
          <>
            <dt>Least minutes for what is short</dt>
            <dd>{minutesWords(row)}</dd>
          </>
        )}
        <dt>Questions answered</dt>
        <dd>
          {packed.answers}
          {packed.days !== undefined && ` on ${plural(packed.days.length, 'day')}`}
          {packed.minutes !== undefined && ` in ${plural(packed.minutes, 'minute')}`}
        </dd>
        {row.sureWrong !== null && (
          <>
            <dt>Sure, but wrong</dt>
            <dd>{sureWrongWords(row)} answers, those about several items counted once for each</dd>
          </>
        )}
        <dt>Items</dt>
        <dd>{itemsWords(row)}</dd>
      </dl>
      {packed.leftOut.length > 0 && (
        <p class="note">Left out by the trainee: {packed.leftOut.map((part) => LEFT_OUT_WORDS[part]).join(', ')}.</p>
      )}
      {row.old.map((one) => (
        <p class="note warn" key={one.deck}>
          {one.title}: the trainee practises {revisionWords(one)}.
        </p>
      ))}
      <p class="small soft">
        Self-recorded: nobody else saw the answers being given. The signature shows that nobody changed the report since
        {row.person.heads.length > 1 ? ', and that it came from the same device as the one before' : ''}.
      </p>
    </>
  );
}
