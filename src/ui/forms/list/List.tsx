import type { ListShown } from '../../../model/form.ts';
import { About } from '../answer/Pick.tsx';
import { Scene } from '../answer/Scene.tsx';
import { Words, WordsVerdict } from '../answer/Words.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';

/** Which list, or when one is called for; of a response the challenge as it is read out. */
function Where(props: { readonly shown: ListShown }) {
  const { title, scene, challenge } = props.shown;
  return (
    <>
      <h2 class="asked">{title}</h2>
      <Scene lines={scene} />
      {challenge !== '' && <About text={challenge} />}
    </>
  );
}

export function ListQuestion(props: QuestionProps<ListShown>) {
  return (
    <>
      <Where shown={props.shown} />
      <Words {...props} />
    </>
  );
}

const RIGHT: Readonly<Record<ListShown['way'], string>> = {
  which: 'It is this list',
  call: 'What calls for it',
  caller: 'Who calls for it',
  response: 'What is answered',
};

export function ListVerdict({ shown, told }: VerdictProps<ListShown>) {
  return (
    <WordsVerdict
      shown={shown}
      told={told}
      given={shown.choices.length > 0 ? 'You chose' : 'You said'}
      right={RIGHT[shown.way]}
    >
      {shown.challenge !== '' && <About text={shown.challenge} />}
    </WordsVerdict>
  );
}
