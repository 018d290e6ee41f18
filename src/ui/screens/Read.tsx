import { useMemo, useState } from 'preact/hooks';
import { circumstances, type WalkWanted, walkOf } from '../../drill/walk.ts';
import { LEFT_OUT } from '../../subjects/resolved.ts';
import type { Learner } from '../models/learner.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { WalkThrough } from '../parts/WalkThrough.tsx';

/** A procedure, or all limits or scenarios of a deck, to read at any time. */
export function Read(props: { readonly learner: Learner; readonly deck: string; readonly thing: string }) {
  const { learner, thing } = props;
  const found = learner.practised.value.find(({ stored }) => stored.id === props.deck);
  const views = found?.resolved.views ?? [];
  const [variant, setVariant] = useState(views[0]?.id ?? '');
  const [situation, setSituation] = useState<string | null>(null);
  const kind = thing === 'limits' ? 'limit' : thing === 'scenarios' ? 'scenario' : 'procedure';
  const view = views.find(({ id }) => id === variant);
  const procedure = view?.procedures.find(({ procedure: { id } }) => id === thing);
  const closed = learner.flown(props.deck)[LEFT_OUT] ?? [];
  const reading = useMemo(() => {
    // What is not open yet is in the views of a deck all the same: steps need its numbers.
    const listed = kind === 'limit' ? found?.deck.limits : kind === 'scenario' ? found?.deck.scenarios : undefined;
    const open = listed?.map(({ id }) => id).filter((id) => !closed.includes(`#${id}`));
    const wanted: WalkWanted = {
      variant,
      group: thing,
      groupKind: kind,
      ...(situation !== null && { situation }),
      ...(open !== undefined && open.length < (listed?.length ?? 0) && { things: open }),
    };
    const walk = found === undefined ? null : walkOf(found.resolved, wanted);
    return found === undefined || walk === null ? null : { walk, resolved: found.resolved, wanted };
  }, [found, variant, thing, kind, situation, closed.join()]);
  const situations = procedure?.situations ?? [];
  const words = (id: string) =>
    found === undefined || view === undefined || procedure === undefined
      ? id
      : circumstances(found.resolved, view, procedure, id).join(', ');
  return (
    <Sheet
      title={reading?.walk.title ?? 'No such thing'}
      top={
        <header class="top">
          <a class="button plain" href={`#/deck/${encodeURIComponent(props.deck)}`}>
            Back
          </a>
          {found?.stored.nature === 'fictional' && <span class="mark">Invented</span>}
        </header>
      }
    >
      {views.length > 1 && (
        <label class="field">
          Variant
          <select value={variant} onChange={(event) => setVariant(event.currentTarget.value)}>
            {views.map(({ id, label }) => (
              <option key={id} value={id}>
                {label}
              </option>
            ))}
          </select>
        </label>
      )}
      {situations.length > 1 && (
        <label class="field">
          Situation
          <select
            value={situation ?? situations[0]?.id ?? ''}
            onChange={(event) => setSituation(event.currentTarget.value)}
          >
            {situations.map(({ id }) => (
              <option key={id} value={id}>
                {words(id)}
              </option>
            ))}
          </select>
        </label>
      )}
      {reading === null ? (
        <p>It is not in the variants that you fly, or not open yet.</p>
      ) : (
        <WalkThrough key={`${variant} ${situation}`} reading={reading} />
      )}
    </Sheet>
  );
}
