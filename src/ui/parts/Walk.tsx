import type { WalkLine, Walk as WalkOf } from '../../drill/walk.ts';
import { Text } from './Text.tsx';

/** A procedure, limits or a scenario to read, with all that is asked later. */
export function Walk(props: { readonly walk: WalkOf }) {
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
      <ol class={margin ? 'walk' : 'walk walk-bare'}>
        {lines.map((line, i) => (
          <li key={line.id}>
            {margin && <span class="who number">{line.by ?? (line.answers.length > 0 ? '' : i + 1)}</span>}
            <div>
              <WalkText line={line} />
            </div>
          </li>
        ))}
      </ol>
    </>
  );
}

/** One line with all that is asked of it. */
export function WalkText(props: { readonly line: WalkLine }) {
  const { line } = props;
  return (
    <>
      {line.together ? (
        <p class="small soft">at once with the one before, in any order</p>
      ) : (
        line.beside && <p class="small soft">beside the one before: either may be first</p>
      )}
      {line.cue !== undefined && (
        <p class="small">
          <span class="soft">At: </span>
          <Text text={line.cue} />
        </p>
      )}
      {line.wait !== undefined && (
        <p class="small">
          <span class="soft">Wait: </span>
          <Text text={line.wait} />
        </p>
      )}
      <p class={line.answers.length > 0 ? '' : 'what'}>
        <Text text={line.text} />
        {line.critical && (
          <>
            {' '}
            <span class="mark">critical</span>
          </>
        )}
      </p>
      {line.answers.map(({ given, answer }) => (
        <p class="answer" key={`${given} ${answer}`}>
          {given !== '' && <span class="small soft">{given}: </span>}
          <span class="value">{answer}</span>
        </p>
      ))}
      {line.value !== undefined && (
        <p>
          <Text text={line.value} />
        </p>
      )}
      {line.why !== undefined && (
        <p class="small">
          <Text text={line.why} />
        </p>
      )}
      {line.slip !== undefined && (
        <p class="small">
          <span class="soft">Usual slip: </span>
          <Text text={line.slip} />
        </p>
      )}
      {line.source !== undefined && <p class="small soft">{line.source}</p>}
    </>
  );
}
