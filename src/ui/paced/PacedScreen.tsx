import { useState } from 'preact/hooks';
import { type PacedStart, pacedChoices } from '../../drill/paced.ts';
import type { Told } from '../../drill/types.ts';
import type { Learner } from '../models/learner.ts';
import type { Practised } from '../models/revisions.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { PacedBegin } from './PacedBegin.tsx';
import { PacedEnd } from './PacedEnd.tsx';
import { PacedPlay } from './PacedPlay.tsx';
import { storeRun, toldOfRun } from './store-run.ts';
import type { Voice } from './voice.ts';
import './paced.css';

type Stage =
  | { readonly at: 'begin' }
  | { readonly at: 'play'; readonly start: PacedStart; readonly voice: Voice | null }
  | { readonly at: 'end'; readonly told: Told };

/** A take-off played in time: chosen, played, told. */
export function PacedScreen(props: { readonly learner: Learner; readonly deck: string; readonly paced: string }) {
  const { learner } = props;
  const found = learner.practised.value.find(({ stored }) => stored.id === props.deck);
  const choice =
    found === undefined
      ? undefined
      : pacedChoices(found.resolved, learner.memory.value).find(({ paced }) => paced.id === props.paced);
  const [stage, setStage] = useState<Stage>({ at: 'begin' });
  if (found === undefined || choice === undefined)
    return (
      <Sheet title="No such run" top={<BackToDeck deck={props.deck} />}>
        <p>This take-off is not in a deck that you practise, not in the variants that you fly, or not open yet.</p>
      </Sheet>
    );
  switch (stage.at) {
    case 'begin':
      return (
        <PacedBegin
          learner={learner}
          found={found}
          choice={choice}
          onStart={(start, voice) => setStage({ at: 'play', start, voice })}
        />
      );
    case 'play':
      return (
        <PacedPlay
          learner={learner}
          resolved={found.resolved}
          start={stage.start}
          voice={stage.voice}
          invented={isInvented(found)}
          onLeave={() => setStage({ at: 'begin' })}
          onEnd={(given, ms) => {
            const told = toldOfRun(found.resolved, stage.start, given);
            setStage({ at: 'end', told });
            // `learner.problem` says where it could not be stored, and a button there writes it.
            storeRun(learner, found.resolved, told, ms).then(
              (stored) => setStage({ at: 'end', told: stored }),
              () => undefined,
            );
          }}
        />
      );
    case 'end':
      return (
        <PacedEnd
          learner={learner}
          told={stage.told}
          deck={props.deck}
          invented={isInvented(found)}
          onAgain={() => setStage({ at: 'begin' })}
        />
      );
  }
}

const isInvented = ({ stored }: Practised): boolean => stored.nature === 'fictional';

export function BackToDeck(props: { readonly deck: string; readonly invented?: boolean }) {
  return (
    <header class="top">
      <a class="button plain" href={`#/deck/${encodeURIComponent(props.deck)}`}>
        Back
      </a>
      {props.invented && <span class="mark">Invented</span>}
    </header>
  );
}
