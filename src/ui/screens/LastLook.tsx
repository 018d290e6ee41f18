import { useMemo } from 'preact/hooks';
import type { WhyRead } from '../../drill/last-look.ts';
import { lastLookOf } from '../models/last-look.ts';
import type { Learner } from '../models/learner.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { Walk } from '../parts/Walk.tsx';

const PARTS: readonly (readonly [WhyRead, string])[] = [
  ['alert', 'Sure, but wrong: not yet put right'],
  ['critical', 'Critical, and below its target'],
  ['weakest', 'The weakest of the other parts'],
];

/** What is weak and critical, to read once more. */
export function LastLook(props: { readonly learner: Learner }) {
  const { learner } = props;
  const memory = learner.memory.value;
  const decks = learner.practised.value;
  const course = learner.course.value;
  const today = learner.today();
  const list = useMemo(() => lastLookOf(learner), [learner, memory, decks, course, today]);
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
      {PARTS.map(([part, title]) => {
        const things = list.filter(({ why }) => why === part);
        if (things.length === 0) return null;
        return (
          <section class="stack" key={part}>
            <h2>{title}</h2>
            {things.map(({ key, group, isNew, walk }, i) => (
              <section class="stack" key={key}>
                {(things[i - 1]?.group !== group || things[i - 1]?.isNew !== isNew) && (
                  <h3>
                    {group}
                    {isNew && <span class="small soft"> · never asked yet</span>}
                  </h3>
                )}
                <Walk walk={walk} />
              </section>
            ))}
          </section>
        );
      })}
    </Sheet>
  );
}
