import type { CalloutShown } from '../../../model/form.ts';
import { About } from '../answer/Pick.tsx';
import { Scene } from '../answer/Scene.tsx';
import { Words, WordsVerdict } from '../answer/Words.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';
import { Done } from '../run/Done.tsx';

/** Where in the procedure something is said: what was done last, and what it is said at. */
function Where(props: { readonly shown: CalloutShown }) {
  const { title, scene, before, cue } = props.shown;
  return (
    <>
      <h2 class="asked">{title}</h2>
      <Scene lines={scene} />
      {before.length > 0 && (
        <ul class="run">
          <Done texts={before} />
        </ul>
      )}
      {cue !== '' && <About text={cue} />}
    </>
  );
}

export function CalloutQuestion(props: QuestionProps<CalloutShown>) {
  return (
    <>
      <Where shown={props.shown} />
      <Words {...props} />
    </>
  );
}

export function CalloutVerdict({ shown, told }: VerdictProps<CalloutShown>) {
  return (
    <WordsVerdict
      shown={shown}
      told={told}
      given={shown.choices.length > 0 ? 'You chose' : 'You said'}
      right="What is said"
    >
      {shown.cue !== '' && <About text={shown.cue} />}
    </WordsVerdict>
  );
}
