import { useMemo, useState } from 'preact/hooks';
import { picturesOf, type Reading } from '../../drill/walk-pictures.ts';
import { GuessChoice, guessedWords, type Hides } from './Guess.tsx';
import { lazy } from './lazy.tsx';
import { Walk } from './Walk.tsx';
import './walk-through.css';

const ProcedureMap = lazy(() => import('./ProcedureMap.tsx').then((module) => module.ProcedureMap), 'part');
const Panel = lazy(() => import('./Panel.tsx').then((module) => module.Panel), 'part');

type Open = 'guess' | 'map' | 'panel';

const NAMES: Readonly<Record<Open, string>> = { guess: 'Guess', map: 'Map', panel: 'Panel' };

/**
 * What is read, with ways to look at it folded into one line of buttons: hide and guess, the procedure as a line, the
 * place on the panel. One is open at a time, none at first: who wants to read reads.
 */
export function WalkThrough(props: { readonly reading: Reading }) {
  const { reading } = props;
  const { walk, wanted } = reading;
  const [open, setOpen] = useState<Open | null>(null);
  const [hides, setHides] = useState<Hides | undefined>(undefined);
  const [shown, setShown] = useState<ReadonlySet<string>>(new Set());
  const [last, setLast] = useState<string | null>(null);
  const has = useMemo(() => picturesOf(reading), [reading]);
  const tools = (['guess', 'map', 'panel'] as const).filter((tool) => tool === 'guess' || has[tool]);
  const lastLine = walk.lines.find(({ id }) => id === last);
  const show = (id: string) => {
    const next = new Set(shown);
    if (!next.delete(id)) next.add(id);
    setShown(next);
    setLast(next.has(id) ? id : null);
  };
  const hide = (what: Hides | undefined) => {
    setHides(what);
    setShown(new Set());
    setLast(null);
  };
  return (
    <>
      <div class="row thirds walk-tools">
        {wanted.groupKind === 'procedure' ? (
          tools.map((tool) => (
            <button
              type="button"
              key={tool}
              aria-expanded={open === tool}
              onClick={() => {
                setOpen(open === tool ? null : tool);
                if (tool === 'guess' && open !== 'guess' && hides === undefined) hide('steps');
              }}
            >
              {NAMES[tool]}
            </button>
          ))
        ) : (
          <button type="button" onClick={() => hide(hides === undefined ? 'answers' : undefined)}>
            {hides === undefined ? 'Hide the answers' : 'Show the answers'}
          </button>
        )}
      </div>
      {open === 'guess' && <GuessChoice hides={hides} onHide={hide} />}
      {open === 'map' && <ProcedureMap reading={reading} />}
      {open === 'panel' && <Panel reading={reading} />}
      <p class="hidden-visually" role="status">
        {hides !== undefined && lastLine !== undefined && guessedWords(hides, lastLine)}
      </p>
      <Walk
        walk={walk}
        short={hides !== undefined}
        {...(reading.fresh !== undefined && { fresh: reading.fresh })}
        guess={{ ...(hides !== undefined && { hides }), shown, onShow: show }}
      />
    </>
  );
}
