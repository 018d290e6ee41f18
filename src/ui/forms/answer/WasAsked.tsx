import type { ComponentChildren } from 'preact';
import { Text } from '../../parts/Text.tsx';
import { Done } from '../run/Done.tsx';
import { Scene } from './Scene.tsx';

/**
 * The question as it was put, below its answer: on a phone what is right is in sight first.
 * @param props.children what else was seen, between the steps done before and what was asked
 */
export function WasAsked(props: {
  readonly title?: string;
  readonly scene: readonly string[];
  readonly before?: readonly string[];
  readonly ask?: string;
  readonly children?: ComponentChildren;
}) {
  const { title, scene, before = [], ask } = props;
  return (
    <section class="stack rule">
      <h2>What was asked</h2>
      {title !== undefined && (
        <p>
          <Text text={title} />
        </p>
      )}
      <Scene lines={scene} />
      {before.length > 0 && (
        <ul class="run">
          <Done texts={before} />
        </ul>
      )}
      {props.children}
      {ask !== undefined && (
        <p>
          <Text text={ask} />
        </p>
      )}
    </section>
  );
}
