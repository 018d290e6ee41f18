import { Fragment } from 'preact';
import { isoOfDay } from '../../lib/date-words.ts';
import { amendmentOf, answersChanged, datesOf, isToTell } from '../models/amendment.ts';
import type { Learner } from '../models/learner.ts';
import { dayWords, plural } from '../words.ts';

/** On the Brief: decks that were amended, until the learner has read what changed; then a line while it is to come. */
export function Amended(props: { readonly learner: Learner }) {
  const { learner } = props;
  const today = isoOfDay(learner.today());
  return (
    <>
      {learner.practised.value.map(({ stored, chain, deck: { title, effective, until } }) => (
        <Fragment key={stored.ref}>
          {effective !== undefined && effective > today && chain.length === 1 && (
            <p class="note warn">
              {title} is not in force before {dayWords(effective, 0)}: until then its answers may be wrong.
            </p>
          )}
          {until !== undefined && until < today && (
            <p class="note warn">
              The last day of {title}, version {stored.version}, was {dayWords(until, 0)}: ask who made it what holds
              now.
            </p>
          )}
        </Fragment>
      ))}
      {learner.practised.value.map(({ chosen, resolved }) => {
        const amendment = amendmentOf(learner, chosen.id);
        if (amendment === null) return null;
        const href = `#/amendment/${encodeURIComponent(chosen.id)}`;
        if (!isToTell(amendment)) {
          const coming = resolved.others?.some(({ when }) => when !== 'past') === true;
          return (
            coming && (
              <p class="small" key={chosen.ref}>
                <a class="deck-link" href={href}>
                  {chosen.title}: {datesOf(learner, amendment)[0]}
                </a>
              </p>
            )
          );
        }
        const { changed, added, removed } = answersChanged(amendment);
        const said = [
          ...(changed > 0 ? [`${plural(changed, 'other answer')}`] : []),
          ...(added > 0 ? [`${added} new`] : []),
          ...(removed > 0 ? [`${removed} no longer asked`] : []),
        ];
        return (
          <div class="note warn stack" key={chosen.ref}>
            <p>
              Amended: {chosen.title}, version {chosen.version}
              {said.length > 0 && `: ${said.join(', ')}`}.
            </p>
            <a class="button" href={href}>
              Read what changed
            </a>
          </div>
        );
      })}
    </>
  );
}
