import type { ChipFinding, RunDetail, RunShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { WasAsked } from '../answer/WasAsked.tsx';
import type { VerdictProps } from '../contract.ts';
import { Place, Step } from './Told.tsx';

/** In the margin: a sign and the learner's number. Never by colour alone. */
const SIGNS: Readonly<Record<ChipFinding['state'], { readonly sign: string; readonly words: string }>> = {
  right: { sign: '✓', words: 'right' },
  moved: { sign: '~', words: 'mixed up with another' },
  misplaced: { sign: '✗', words: 'out of place' },
  omitted: { sign: '✗', words: 'left out' },
  stranger: { sign: '✗', words: 'does not belong' },
  'left-out': { sign: '✓', words: 'rightly left out' },
};
const good = (state: ChipFinding['state']) => state === 'right' || state === 'left-out';

/** The rows where they were, the verdict in their margin; the procedure as it is done; what was asked. */
export function RunVerdict(props: VerdictProps<RunShown>) {
  const { shown, told } = props;
  const { chips, slip } = told.marked.detail as RunDetail;
  const found = new Map(chips.map((chip) => [chip.id, chip]));
  const steps = chips.filter(({ state }) => state !== 'stranger' && state !== 'left-out');
  const asked = told.given !== null;
  const source = mostSaid(steps.map((chip) => chip.source));
  return (
    <>
      {slip !== undefined && <p class="note bad">{slip}</p>}
      {asked && (
        <ul class="run">
          {shown.chips.map(({ id }) => {
            const chip = found.get(id);
            return chip === undefined ? null : <Row key={id} chip={chip} />;
          })}
        </ul>
      )}
      <h2>As it is done</h2>
      <ol class="walk walk-told">
        {steps.map((chip, i) => (
          <li key={chip.id}>
            <span class="who number">{chip.by ?? i + 1}</span>
            <Step chip={chip.source === source ? omit(chip) : chip} open={!asked || !good(chip.state)} />
          </li>
        ))}
      </ol>
      {source !== undefined && <p class="small soft">{source}</p>}
      <WasAsked {...shown} />
    </>
  );
}

/** What most steps share is said once, below. */
const mostSaid = (texts: readonly (string | undefined)[]): string | undefined => {
  const counts = new Map<string, number>();
  for (const text of texts) if (text !== undefined) counts.set(text, (counts.get(text) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
};
const omit = ({ source: _, ...rest }: ChipFinding): ChipFinding => rest;

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
        {right && <span class={chip.state === 'left-out' ? 'small soft' : 'hidden-visually'}>{words}</span>}
      </div>
    </li>
  );
}
