import { isLastDays } from '../models/last-days.ts';

/** Ways to practise besides the drill; on the day of the check the last look comes first. Then the way to another date. */
export function OwnWays(props: { readonly today: number; readonly checkDay: number | null }) {
  const { today, checkDay } = props;
  const links = [['rehearse', 'Rehearse a procedure']];
  if (checkDay !== null) links.push(['date', 'Change the date']);
  if (isLastDays(today, checkDay)) links.splice(checkDay === today ? 0 : 1, 0, ['last-look', 'Last look']);
  return (
    <p class="row">
      {links.map(([to, words]) => (
        <a class="button" key={to} href={`#/${to}`}>
          {words}
        </a>
      ))}
    </p>
  );
}
