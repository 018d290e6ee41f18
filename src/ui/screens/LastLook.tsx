import { useMemo } from 'preact/hooks';
import type { WhyRead } from '../../drill/last-look.ts';
import { lastLookOf } from '../models/last-look.ts';
import type { Learner } from '../models/learner.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { Walk } from '../parts/Walk.tsx';
import { plural } from '../words.ts';

const WHY: Readonly<Record<WhyRead, string>> = {
  alert: 'Sure, but wrong: not yet put right',
  critical: 'Critical, and below its target',
  weakest: 'The weakest here',
};
const COUNTED: readonly (readonly [WhyRead, string])[] = [
  ['alert', 'sure but wrong'],
  ['critical', 'critical'],
  ['weakest', 'weakest of a part'],
];

/** What is weak and critical, to read once more. */
export function LastLook(props: { readonly learner: Learner }) {
  const { learner } = props;
  const memory = learner.memory.value;
  const decks = learner.practised.value;
  const course = learner.course.value;
  const today = learner.today();
  const list = useMemo(() => lastLookOf(learner), [learner, memory, decks, course, today]);
  const groups = [...new Set(list.map(({ group }) => group))];
  return (
    <Sheet
      title="Last look"
      top={
        <header class="top">
          <a class="button plain" href="#/">
            Back
          </a>
          {course === 'fictional' && <span class="mark">Invented</span>}
        </header>
      }
      bar={
        <div class="bar">
          <a class="button main wide" href="#/">
            To the Brief
          </a>
        </div>
      }
    >
      <p>Read it, and let it be. Nothing here is counted.</p>
      {list.length === 0 && (
        <p class="note">
          {memory.items.size === 0
            ? 'Nothing was practised yet, so nothing can be weak.'
            : 'Nothing that you have met is below its target.'}
        </p>
      )}
      {list.length > 0 && (
        <p class="soft">
          {plural(list.length, 'thing')}:{' '}
          {COUNTED.flatMap(([why, words]) => {
            const n = list.filter((one) => one.why === why).length;
            return n === 0 ? [] : [`${n} ${words}`];
          }).join(', ')}
          .
        </p>
      )}
      {groups.map((group) => (
        <section class="stack" key={group}>
          <h2>{group}</h2>
          {list
            .filter((one) => one.group === group)
            .map(({ key, why, isNew, walk }, i, all) => (
              <div key={key}>
                {(all[i - 1]?.why !== why || all[i - 1]?.isNew !== isNew) && (
                  <h3>
                    {WHY[why]}
                    {isNew && <span class="small soft"> · never asked yet</span>}
                  </h3>
                )}
                <Walk walk={walk} short />
              </div>
            ))}
        </section>
      ))}
    </Sheet>
  );
}
