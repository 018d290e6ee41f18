import { Text } from '../../parts/Text.tsx';
import { Scene } from './Scene.tsx';

/** What a question is about and what holds; where there are many rows, both in one paragraph. */
export function Intro(props: { readonly title: string; readonly scene: readonly string[] }) {
  return (
    <div class="intro">
      <h2 class="asked">
        <Text text={props.title} />
      </h2>
      <Scene lines={props.scene} />
    </div>
  );
}
