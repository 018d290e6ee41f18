import type { WalkLine, Walk as WalkOf } from '../../drill/walk.ts';
import { PitchPicture } from '../pictures/PitchPicture.tsx';
import { type Guess, hasHidden, Veil } from './Guess.tsx';
import { Posts } from './Posts.tsx';
import { Text } from './Text.tsx';

/**
 * A procedure, limits or a scenario to read, with all that is asked later.
 * @param props.guess what is hidden until its line is tapped
 * @param props.short reasons and sources are folded
 * @param props.fresh ids of lines that are marked as new
 */
export function Walk(props: {
  readonly walk: WalkOf;
  readonly guess?: Guess;
  readonly short?: boolean;
  readonly fresh?: ReadonlySet<string>;
}) {
  const { guess, short = false } = props;
  const { title: _, scene, why, lines } = props.walk;
  // Of limits and scenarios nobody stands in the margin: a phone has no room for an empty one.
  const margin = lines.some(({ by, answers }) => by !== undefined || answers.length === 0);
  return (
    <>
      {scene.length > 0 && <p class="soft">{scene.join(' · ')}</p>}
      {why !== undefined && (
        <p>
          <Text text={why} />
        </p>
      )}
      <Posts labels={lines.map(({ by }) => by)} />
      <ol class={margin ? 'walk' : 'walk walk-bare'}>
        {lines.map((line, i) => {
          const veiled = guess?.hides !== undefined && hasHidden(guess.hides, line);
          const hides = veiled && !guess.shown.has(line.id) ? guess.hides : undefined;
          return (
            <li key={line.id} class={veiled ? 'guessed' : undefined}>
              {margin && (
                <span class="who number">
                  <Part hidden={hides === 'rest' && line.by !== undefined}>
                    {line.by ?? (line.answers.length > 0 ? '' : i + 1)}
                  </Part>
                </span>
              )}
              <div>
                {props.fresh?.has(line.id) && (
                  <p class="small">
                    <span class="mark">new</span>
                  </p>
                )}
                <WalkText line={line} short={short} {...(hides !== undefined && { hides })} />
                {veiled && <Veil guess={guess} line={line} number={i + 1} />}
              </div>
            </li>
          );
        })}
      </ol>
    </>
  );
}

/** Its room is kept: nothing moves when it is shown. */
function Part(props: { readonly hidden: boolean; readonly children: preact.ComponentChildren }) {
  return <span class={props.hidden ? 'veiled' : ''}>{props.children}</span>;
}

/**
 * One line with all that is asked of it.
 * @param props.hides the part that is to be guessed, with the reasons that would tell it
 */
export function WalkText(props: {
  readonly line: WalkLine;
  readonly hides?: NonNullable<Guess['hides']>;
  readonly short?: boolean;
}) {
  const { line, hides } = props;
  const veil = (...parts: NonNullable<Guess['hides']>[]) =>
    hides !== undefined && parts.includes(hides) ? ' veiled' : '';
  const reasons = (
    <>
      <Reasons of={line} class={veil('steps', 'rest', 'answers')} />
      {line.source !== undefined && <p class={`small soft${veil('answers')}`}>{line.source}</p>}
    </>
  );
  return (
    <>
      {line.together ? (
        <p class="small soft">at once with the one before, in any order</p>
      ) : (
        line.beside && <p class="small soft">beside the one before: either may be first</p>
      )}
      {line.cue !== undefined && (
        <p class={`small${veil('rest')}`}>
          <span class="soft">At: </span>
          <Text text={line.cue} />
        </p>
      )}
      {line.wait !== undefined && (
        <p class={`small${veil('rest', 'steps')}`}>
          <span class="soft">Wait: </span>
          <Text text={line.wait} />
        </p>
      )}
      <p class={`${line.answers.length > 0 ? '' : 'what'}${veil('steps')}`}>
        <Text text={line.text} />
        {line.critical && (
          <>
            {' '}
            <span class="mark">critical</span>
          </>
        )}
        {line.where !== undefined && <span class="small soft where"> {line.where}</span>}
      </p>
      {line.answers.map(({ given, answer, pitch, ...reason }) => (
        <div key={`${given} ${answer}`}>
          <p class="answer">
            {given !== '' && <span class="small soft">{given}: </span>}
            <span class={`value${veil('answers')}`}>{answer}</span>
          </p>
          {pitch !== undefined && (
            <div class={veil('answers')}>
              <PitchPicture degrees={pitch} words={answer} />
            </div>
          )}
          <Reasons of={reason} class={veil('answers')} />
        </div>
      ))}
      {line.value !== undefined && (
        <p class={veil('steps', 'rest', 'answers')}>
          <Text text={line.value} />
        </p>
      )}
      {props.short && (line.why ?? line.slip ?? line.source) !== undefined ? (
        <details>
          <summary class="button plain small">{reasonWords(line)}</summary>
          {reasons}
        </details>
      ) : (
        reasons
      )}
    </>
  );
}

const reasonWords = ({ why, slip }: WalkLine): string =>
  [...(why === undefined ? [] : ['why']), ...(slip === undefined ? [] : ['usual slip']), 'source']
    .join(', ')
    .replace(/^./, (first) => first.toUpperCase());

function Reasons(props: { readonly of: Pick<WalkLine, 'why' | 'slip'>; readonly class: string }) {
  const { why, slip } = props.of;
  return (
    <>
      {why !== undefined && (
        <p class={`small${props.class}`}>
          <Text text={why} />
        </p>
      )}
      {slip !== undefined && (
        <p class={`small${props.class}`}>
          <span class="soft">Usual slip: </span>
          <Text text={slip} />
        </p>
      )}
    </>
  );
}
