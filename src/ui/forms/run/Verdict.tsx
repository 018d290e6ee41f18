import type { ChipFinding, RunDetail, RunShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import type { VerdictProps } from '../contract.ts';

/** In the margin: a sign and the learner's number. Never by colour alone. */
const SIGNS: Readonly<Record<ChipFinding['state'], { readonly sign: string; readonly words: string }>> = {
  right: { sign: '✓', words: 'right' },
  moved: { sign: '~', words: 'part of the muddle' },
  misplaced: { sign: '✗', words: 'out of place' },
  omitted: { sign: '✗', words: 'left out' },
  stranger: { sign: '✗', words: 'does not belong' },
  'left-out': { sign: '✓', words: 'rightly left out' },
};
const good = (state: ChipFinding['state']) => state === 'right' || state === 'left-out';

/** The rows where they were, the verdict in their margin; then the procedure as it is done. */
export function RunVerdict(props: VerdictProps<RunShown>) {
  const { shown, told } = props;
  const { chips } = told.marked.detail as RunDetail;
  const found = new Map(chips.map((chip) => [chip.id, chip]));
  const steps = chips.filter(({ state }) => state !== 'stranger' && state !== 'left-out');
  const asked = told.given !== null;
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      {asked && (
        <ul class="run">
          {shown.chips.map(({ id }) => {
            const chip = found.get(id);
            return chip === undefined ? null : <Row key={id} chip={chip} />;
          })}
        </ul>
      )}
      <h2>As it is done</h2>
      <ol class="walk">
        {steps.map((chip, i) => (
          <li key={chip.id}>
            <span class="who number">{chip.by ?? i + 1}</span>
            <div>
              <Extras chip={chip} open={!asked || !good(chip.state)} />
            </div>
          </li>
        ))}
      </ol>
    </>
  );
}

function Row(props: { readonly chip: ChipFinding }) {
  const { chip } = props;
  const { sign, words } = SIGNS[chip.state];
  const right = good(chip.state);
  return (
    <li class={`run-told ${right ? 'right' : 'wrong'}`}>
      <span class="margin number">
        {chip.given !== undefined && (right ? <span>{chip.given}</span> : <s>{chip.given}</s>)}
        <span class="sign" aria-hidden="true">
          {sign}
        </span>
      </span>
      <div>
        <p>
          <Text text={chip.text} />
        </p>
        {!right && (
          <p class="small">
            <strong>{words}</strong>
            <Place chip={chip} />
            {chip.note !== undefined && (
              <>
                . <Text text={chip.note} />
              </>
            )}
          </p>
        )}
        {right && <span class="hidden-visually">{words}</span>}
      </div>
    </li>
  );
}

/** In a partial order there is no one right place: only what it must come after and before. */
function Place(props: { readonly chip: ChipFinding }) {
  const { after, before, state } = props.chip;
  if (state === 'stranger' || (after.length === 0 && before.length === 0)) return null;
  const list = (texts: readonly string[]) => texts.map((text) => `“${text.replace(/[“”]/g, '')}”`).join(' and ');
  return (
    <>
      : {state === 'omitted' ? 'comes' : 'must come'}
      {after.length > 0 && ` after ${list(after)}`}
      {after.length > 0 && before.length > 0 && ','}
      {before.length > 0 && ` before ${list(before)}`}
    </>
  );
}

function Extras(props: { readonly chip: ChipFinding; readonly open: boolean }) {
  const { chip, open } = props;
  const more = (
    <>
      {chip.why !== undefined && (
        <p class="small">
          <Text text={chip.why} />
        </p>
      )}
      {chip.slip !== undefined && (
        <p class="small">
          <span class="soft">Usual slip: </span>
          <Text text={chip.slip} />
        </p>
      )}
      {chip.source !== undefined && <p class="small soft">{chip.source}</p>}
    </>
  );
  return (
    <>
      {chip.cue !== undefined && (
        <p class="small">
          <span class="soft">At: </span>
          <Text text={chip.cue} />
        </p>
      )}
      {chip.wait !== undefined && (
        <p class="small">
          <span class="soft">Wait: </span>
          <Text text={chip.wait} />
        </p>
      )}
      <p class="what">
        <Text text={chip.text} />
      </p>
      {chip.value !== undefined && (
        <p>
          <Text text={chip.value} />
        </p>
      )}
      {chip.together && <p class="small soft">done together: any order is right</p>}
      {open || (chip.why === undefined && chip.slip === undefined) ? (
        more
      ) : (
        <details>
          <summary class="why">Why</summary>
          {more}
        </details>
      )}
    </>
  );
}
