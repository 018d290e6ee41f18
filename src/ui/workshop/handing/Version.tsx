import type { ComponentChildren } from 'preact';
import { useRef, useState } from 'preact/hooks';
import type { DraftModel } from '../model/draft.ts';
import { focusSoon } from './focus.ts';

/**
 * Heading, what is said of the version, and the button that sets one that is high enough. Until it is set the heading
 * says which it will be: under the number of the version before it read as if it followed itself.
 * @param props.problem null: the version is high enough, or must not be set yet
 * @param props.version the one to set
 */
export function Version(props: {
  readonly draft: DraftModel;
  readonly own: string;
  readonly problem: string | null;
  readonly version: string;
  readonly children: ComponentChildren;
}) {
  const { draft, own, problem, version } = props;
  const [wasSet, setWasSet] = useState('');
  const heading = useRef<HTMLHeadingElement>(null);
  return (
    <>
      <h2 tabIndex={-1} ref={heading}>
        {problem === null ? `Version ${own}` : `To become version ${version}`}
      </h2>
      {props.children}
      {problem !== null && (
        <>
          <p class="note warn">{problem}</p>
          <button
            type="button"
            class="main"
            onClick={() => {
              draft.put('/version', version, 'Version set');
              setWasSet(version);
              focusSoon(heading);
            }}
          >
            Set version {version}
          </button>
        </>
      )}
      <p role="status">{wasSet !== '' && wasSet === own && `Version ${own} is set.`}</p>
    </>
  );
}
