import { useMemo, useState } from 'preact/hooks';
import type { Rehearsable, Way } from '../../drill/rehearsal.ts';
import { walkOf } from '../../drill/walk.ts';
import type { Learner } from '../models/learner.ts';
import type { RehearsalModel } from '../models/rehearsal.ts';
import { Unsaved } from '../parts/Notices.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { WalkThrough } from '../parts/WalkThrough.tsx';

const nameOf = ({ deck, procedure }: Rehearsable): string => `${deck} ${procedure}`;

/** Which procedure, in whose seat, in which circumstances; one that was not read is read first. */
export function RehearsalChoice(props: { readonly learner: Learner; readonly rehearsal: RehearsalModel }) {
  const { learner, rehearsal: model } = props;
  const [name, setName] = useState<string | null>(null);
  const [seat, setSeat] = useState<string | null>(model.seat.value);
  const [variant, setVariant] = useState('');
  const [situation, setSituation] = useState('');
  const [reading, setReading] = useState<{ readonly of: Rehearsable; readonly way: Way } | null>(null);
  const [refused, setRefused] = useState(false);
  const all = model.choice.value;
  if (reading !== null)
    return (
      <ReadFirst
        learner={learner}
        model={model}
        {...reading}
        onBack={(read) => {
          if (read) choose(reading.of);
          setReading(null);
        }}
      />
    );

  const ready = all.filter(({ ways }) => ways.some(({ read }) => read));
  const unread = all.flatMap((of) => {
    const way = of.ways.find(({ read }) => !read);
    return way === undefined ? [] : [{ of, way }];
  });
  const chosen = ready.find((one) => nameOf(one) === name) ?? ready[0];
  const read = chosen?.ways.filter((way) => way.read) ?? [];
  const variants = byFirst(read, (way) => way.variant);
  const situations = byFirst(
    read.filter((way) => variant === '' || way.variant === variant),
    (way) => way.situation,
  );
  const taken = chosen?.seats.find(({ id }) => id === seat) ?? chosen?.seats[0];
  const begin = async () => {
    if (chosen === undefined) return;
    setRefused(false);
    const begun = await model.begin(chosen.deck, {
      procedure: chosen.procedure,
      seat: taken?.id ?? null,
      ...(variant !== '' && { variant }),
      ...(situation !== '' && { situation }),
    });
    setRefused(!begun && learner.problem.value === null);
  };
  function choose(one: Rehearsable) {
    setName(nameOf(one));
    setVariant('');
    setSituation('');
    setRefused(false);
  }
  return (
    <Sheet
      title="Rehearse a procedure"
      top={
        <header class="top">
          <a class="button plain" href="#/">
            Back
          </a>
          {learner.course.value === 'fictional' && <span class="mark">Invented</span>}
        </header>
      }
      bar={
        chosen !== undefined && (
          <div class="bar">
            <button type="button" class="main wide" disabled={model.busy.value} onClick={() => void begin()}>
              Begin
            </button>
          </div>
        )
      }
    >
      <p>
        All of its steps in order, the other pilot's too, then the limits and scenarios that belong to it. No hints; the
        verdicts come at the end, those on your own steps first. Every answer counts.
      </p>
      <Unsaved learner={learner} />
      {refused && <p class="note warn">Nothing of this one can be asked in these circumstances. Choose others.</p>}
      {chosen === undefined ? (
        <p class="note">
          {all.length === 0
            ? 'The decks that you practise hold no procedure that is done from memory.'
            : 'A procedure that was never read is not rehearsed. Read one first.'}
        </p>
      ) : (
        <>
          <fieldset>
            <legend>
              <h2>Procedure</h2>
            </legend>
            {ready.map((one) => (
              <label class="pick" key={nameOf(one)}>
                <input type="radio" name="procedure" checked={one === chosen} onChange={() => choose(one)} />
                {one.title}
              </label>
            ))}
          </fieldset>
          {chosen.seats.length > 0 && (
            <fieldset>
              <legend>
                <h2>Your seat</h2>
              </legend>
              {chosen.seats.map(({ id, label }) => (
                <label class="pick" key={id}>
                  <input type="radio" name="seat" checked={id === taken?.id} onChange={() => setSeat(id)} />
                  {label}
                </label>
              ))}
            </fieldset>
          )}
          {variants.length > 1 && (
            <label class="field">
              Variant
              <select
                value={variant}
                onChange={(event) => {
                  setVariant(event.currentTarget.value);
                  setSituation('');
                }}
              >
                <option value="">Any, by lot</option>
                {variants.map((way) => (
                  <option key={way.variant} value={way.variant}>
                    {way.label}
                  </option>
                ))}
              </select>
            </label>
          )}
          {situations.length > 1 && (
            <label class="field">
              Situation
              <select value={situation} onChange={(event) => setSituation(event.currentTarget.value)}>
                <option value="">Any, by lot</option>
                {situations.map((way) => (
                  <option key={way.situation} value={way.situation}>
                    {way.words}
                  </option>
                ))}
              </select>
            </label>
          )}
        </>
      )}
      {unread.length > 0 && (
        <section class="stack">
          <h2>Not read yet</h2>
          <ul class="lines">
            {unread.map(({ of, way }) => (
              <li key={nameOf(of)} class="after">
                <span>{of.title}</span>
                {of.ways.some(({ read }) => read) && (
                  <p class="small soft">{[way.words, way.label].filter((words) => words !== '').join(' · ')}</p>
                )}
                <button type="button" class="plain" onClick={() => setReading({ of, way })}>
                  Read it first<span class="hidden-visually">: {of.title}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
    </Sheet>
  );
}

/** Each once, the first of those with the same name. */
const byFirst = (ways: readonly Way[], named: (way: Way) => string): Way[] =>
  [...new Map([...ways].reverse().map((way) => [named(way), way] as const)).values()].reverse();

function ReadFirst(props: {
  readonly learner: Learner;
  readonly model: RehearsalModel;
  readonly of: Rehearsable;
  readonly way: Way;
  readonly onBack: (read: boolean) => void;
}) {
  const { learner, model, of, way, onBack } = props;
  const found = learner.practised.value.find(({ resolved }) => resolved.ref === of.deck);
  const reading = useMemo(() => {
    const wanted = {
      variant: way.variant,
      group: of.procedure,
      groupKind: 'procedure',
      situation: way.situation,
    } as const;
    const walk = found === undefined ? null : walkOf(found.resolved, wanted);
    return found === undefined || walk === null ? null : { walk, resolved: found.resolved, wanted };
  }, [found, way, of]);
  const read = async () => {
    const steps = reading?.walk.lines.map(({ id }) => id) ?? [];
    if (await model.read(of.deck, steps)) onBack(true);
  };
  return (
    <Sheet
      title={of.title}
      top={
        <header class="top">
          <button type="button" class="plain" onClick={() => onBack(false)}>
            Back
          </button>
          {found?.stored.nature === 'fictional' && <span class="mark">Invented</span>}
        </header>
      }
      bar={
        <div class="bar">
          <button type="button" class="main wide" disabled={model.busy.value} onClick={() => void read()}>
            I have read this
          </button>
        </div>
      }
    >
      <Unsaved learner={learner} />
      {reading !== null && <WalkThrough reading={reading} />}
    </Sheet>
  );
}
