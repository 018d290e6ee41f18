import { Text } from '../../parts/Text.tsx';
import { Done } from '../run/Done.tsx';
import { About } from './Pick.tsx';

/** Where in a procedure something is asked: its title, the steps just done, and the step that it belongs to. */
export function InStep(props: { readonly title: string; readonly before: readonly string[]; readonly step: string }) {
  const { title, before, step } = props;
  return (
    <>
      <p class="small soft">
        <Text text={title} />
      </p>
      {before.length > 0 && (
        <ul class="run">
          <Done texts={before} />
        </ul>
      )}
      {step !== '' && <About text={step} />}
    </>
  );
}
