import { useEffect, useMemo, useState } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import { valueAt } from '../../../draft/change.ts';
import { askTrial, markTrial, type Trial, type Tried, trialsOf } from '../../../drill/trial.ts';
import type { Draft, Told } from '../../../drill/types.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { type Deck, type Id, isTable } from '../../../model/deck.ts';
import type { Sure } from '../../../model/item.ts';
import type { Flown } from '../../../subjects/resolved.ts';
import type { FormUi } from '../../forms/contract.ts';
import { givenOf } from '../../forms/given.ts';
import { formUi } from '../../forms/registry.ts';
import { Fate } from '../../screens/drill-verdict.tsx';
import { NATURE_WORDS, SHORT_CAUTION } from '../../words.ts';
import type { PageProps } from '../PageOf.tsx';
import { thingTitle } from '../titles.ts';

interface Choice {
  readonly thing: Id;
  readonly title: string;
}

/**
 * The draft as a learner would meet it, in one variant or in two side by side. Nothing is logged, and nobody's memory
 * is touched.
 * @param props.page `try`, `try/<thing>` or `try/<thing>/<step>`
 */
export function Try({ learner, draft, page }: PageProps & { readonly page: string }) {
  const [, wantedThing, wantedStep] = page.split('/');
  const value = draft.value.value;
  const read = useMemo(() => readValue(value), [value]);
  const [chosen, setChosen] = useState<Id | null>(wantedThing ?? null);
  const [step, setStep] = useState<Id | undefined>(wantedStep);
  const [picks, setPicks] = useState<readonly Flown[] | null>(null);
  if (read.deck === undefined)
    return (
      <p class="note">
        Something in the draft is not filled in or not right yet, so it cannot be put to anybody. Mend what the contents
        mark, then try again.
      </p>
    );
  const { deck } = read;
  const choices = choicesOf(value);
  const thing = choices.find((one) => one.thing === chosen)?.thing ?? choices[0]?.thing;
  if (thing === undefined) return <p class="note">There is nothing to ask yet. Add a procedure, limit or scenario.</p>;
  const shown = picks ?? [firstOptions(deck)];
  const several = (deck.variants ?? []).length > 0;
  const putPick = (at: number, axis: Id, option: Id) =>
    setPicks(shown.map((one, i) => (i === at ? { ...one, [axis]: [option] } : one)));
  return (
    <>
      <p>
        {deck.nature === 'fictional' && <span class="mark">{NATURE_WORDS.fictional}</span>} As a learner meets it.
        Nothing is kept of what you answer here.
      </p>
      <label class="field">
        What to try
        <select
          value={thing}
          onChange={(event) => {
            setChosen(event.currentTarget.value);
            setStep(undefined);
          }}
        >
          {choices.map((one) => (
            <option key={one.thing} value={one.thing}>
              {one.title}
            </option>
          ))}
        </select>
      </label>
      {step !== undefined && (
        <button type="button" class="plain" onClick={() => setStep(undefined)}>
          Only questions with one step are offered. Offer all
        </button>
      )}
      {several && (
        <button
          type="button"
          onClick={() =>
            setPicks(shown.length > 1 ? shown.slice(0, 1) : [...shown, otherOptions(deck, shown[0] ?? {})])
          }
        >
          {shown.length > 1 ? 'One variant only' : 'Two variants side by side'}
        </button>
      )}
      <div class="side-by-side">
        {shown.map((flown, at) => (
          <section key={at} class="stack">
            {(deck.variants ?? []).map((axis) => (
              <label class="field" key={axis.id}>
                {axis.label}
                <select
                  value={flown[axis.id]?.[0] ?? ''}
                  onChange={(event) => putPick(at, axis.id, event.currentTarget.value)}
                >
                  {Object.entries(axis.options).map(([option, label]) => (
                    <option key={option} value={option}>
                      {label}
                    </option>
                  ))}
                </select>
              </label>
            ))}
            <Asked
              key={`${thing} ${step ?? ''} ${JSON.stringify(flown)}`}
              deck={deck}
              flown={flown}
              thing={thing}
              {...(step !== undefined && { step })}
              seed={() => learner.device.seed()}
            />
          </section>
        ))}
      </div>
      <p class="small soft">{SHORT_CAUTION}</p>
    </>
  );
}

const choicesOf = (value: Json): Choice[] =>
  ['/procedures', '/limits', '/scenarios'].flatMap((list) => {
    const things = valueAt(value, list);
    return (Array.isArray(things) ? (things as readonly Json[]) : []).map((one) => ({
      thing: String(valueAt(one, '/id')),
      title: thingTitle(one),
    }));
  });

const firstOptions = (deck: Deck): Flown =>
  Object.fromEntries((deck.variants ?? []).map(({ id, options }) => [id, Object.keys(options).slice(0, 1)]));

/** As the first, but for the first axis: so what differs is seen at once. */
const otherOptions = (deck: Deck, first: Flown): Flown => {
  const axis = deck.variants?.[0];
  const other = Object.keys(axis?.options ?? {}).find((option) => option !== first[axis?.id ?? '']?.[0]);
  return axis === undefined || other === undefined ? first : { ...first, [axis.id]: [other] };
};

function Asked(props: {
  readonly deck: Deck;
  readonly flown: Flown;
  readonly thing: Id;
  readonly step?: Id;
  readonly seed: () => number;
}) {
  const { deck, flown, thing, step, seed } = props;
  const tried = useMemo(() => trialsSafely(deck, flown, thing, step), [deck, flown, thing, step]);
  const [at, setAt] = useState(0);
  const [dice, setDice] = useState(seed);
  const trial = tried?.trials[at] ?? tried?.trials[0];
  if (tried === null || trial === undefined)
    return (
      <p class="note">
        {tried === null ? 'This cannot be put together yet. Mend what the contents mark.' : nothingWords(deck, thing)}
      </p>
    );
  const next = () => {
    setAt((before) => (before + 1) % tried.trials.length);
    setDice(seed());
  };
  return (
    <>
      <label class="field">
        Question
        <select
          value={String(tried.trials.indexOf(trial))}
          onChange={(event) => setAt(Number(event.currentTarget.value))}
        >
          {tried.trials.map((one, i) => (
            <option key={i} value={String(i)}>
              {i + 1}. {one.words}
            </option>
          ))}
        </select>
      </label>
      <One
        key={`${tried.trials.indexOf(trial)} ${dice}`}
        tried={tried}
        trial={trial}
        seed={dice}
        onAgain={() => setDice(seed())}
        onNext={next}
      />
    </>
  );
}

const nothingWords = (deck: Deck, thing: Id): string => {
  const limit = deck.limits?.find(({ id }) => id === thing);
  if (limit !== undefined && isTable(limit) && limit.asked !== true)
    return 'This table is not asked, only looked up. Tick “Asked row by row” where learners should know it.';
  if (deck.procedures?.some(({ id }) => id === thing))
    return 'Nothing of this is asked here: it does not hold for this variant, is read from a list, or has too few steps to put in order.';
  return 'Nothing of this is asked here: it does not hold for this variant.';
};

const trialsSafely = (deck: Deck, flown: Flown, thing: Id, step: Id | undefined): Tried | null => {
  try {
    return trialsOf(deck, flown, thing, step);
  } catch {
    // The checker has its say about such a draft; here it only cannot be asked.
    return null;
  }
};

function One(props: {
  readonly tried: Tried;
  readonly trial: Trial;
  readonly seed: number;
  readonly onAgain: () => void;
  readonly onNext: () => void;
}) {
  const { tried, trial, seed } = props;
  const shown = useMemo(() => askTrial(tried, trial, seed), [tried, trial, seed]);
  const [form, setForm] = useState<FormUi | null>(null);
  const [entered, setEntered] = useState<Draft>({});
  const [which, setWhich] = useState<readonly string[] | null>(null);
  const [told, setTold] = useState<Told | null>(null);
  useEffect(() => {
    void formUi(trial.offer.form).then((loaded) => setForm(() => loaded));
  }, [trial]);
  if (shown === null)
    return <p class="note warn">No such draw was found: what is required is met too rarely. Widen the draws.</p>;
  if (form === null) return null;
  const { Question, Verdict, UnsureSteps } = form;
  const answer = (sure: Sure) => {
    if (sure === false && UnsureSteps !== undefined && which === null) return setWhich([]);
    const given = sure === null ? null : givenOf(shown, entered);
    if (sure !== null && given === null) return;
    setTold(markTrial(tried, trial, shown, { given, sure, unsure: which ?? [] }));
  };
  if (told !== null)
    return (
      // The verdict takes the cursor along, as a new screen does in a drill.
      <div class="stack tried" tabIndex={-1} ref={(at) => at?.focus({ preventScroll: true })}>
        <Fate now={told} />
        <Verdict shown={shown} told={told} />
        <div class="row even">
          <button type="button" onClick={props.onAgain}>
            The same once more
          </button>
          <button type="button" class="main" onClick={props.onNext}>
            Next question
          </button>
        </div>
      </div>
    );
  if (which !== null && UnsureSteps !== undefined)
    return (
      <div class="stack tried">
        <h2>Which steps are you not sure of?</h2>
        <UnsureSteps shown={shown} draft={entered} value={which} onChange={setWhich} />
        <button type="button" class="main" onClick={() => answer(false)}>
          {which.length === 0 ? 'All of them' : 'These'}
        </button>
      </div>
    );
  return (
    <div class="stack tried">
      <Question shown={shown} draft={entered} disabled={false} onDraft={setEntered} />
      <Sureness complete={givenOf(shown, entered) !== null} onAnswer={answer} />
    </div>
  );
}

function Sureness(props: { readonly complete: boolean; readonly onAnswer: (sure: Sure) => void }) {
  return (
    <div class="row even">
      <button type="button" class="main" disabled={!props.complete} onClick={() => props.onAnswer(true)}>
        Sure
      </button>
      <button type="button" disabled={!props.complete} onClick={() => props.onAnswer(false)}>
        Not sure
      </button>
      <button type="button" onClick={() => props.onAnswer(null)}>
        Don't know
      </button>
    </div>
  );
}
