import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Draft } from '../../drill/types.ts';
import type { Shown } from '../../model/form.ts';
import type { Sure } from '../../model/item.ts';
import type { FormUi } from '../forms/contract.ts';
import { draftComplete } from '../forms/registry.ts';
import { Sheet } from './Sheet.tsx';

/**
 * One question, with what answers it at the thumb: sure, not sure (and of which steps), or not known.
 * @param props.children what stands above the question
 */
export function Ask(props: {
  /** For screen readers and the tab: what is asked. */
  readonly title: string;
  readonly shown: Shown;
  readonly draft: Draft;
  readonly form: FormUi;
  /** An answer is being stored. */
  readonly busy: boolean;
  readonly top: ComponentChildren;
  readonly children: ComponentChildren;
  readonly onDraft: (draft: Draft) => void;
  /** @param unsure ids of the steps named as not sure; empty: all */
  readonly onAnswer: (sure: Sure, unsure: readonly string[]) => void;
}) {
  const { shown, draft, busy } = props;
  const { Question, UnsureSteps } = props.form;
  /** Not sure in a run: which steps? null before that was said. */
  const [which, setWhich] = useState<readonly string[] | null>(null);
  const complete = draftComplete(shown, draft);
  const answer = (sure: Sure) => {
    if (sure === false && UnsureSteps !== undefined && which === null) setWhich([]);
    else props.onAnswer(sure, which ?? []);
  };
  if (which !== null && UnsureSteps !== undefined)
    return (
      <Sheet
        key="which"
        title="Which steps are you not sure of?"
        top={props.top}
        bar={
          <div class="bar">
            <div class="row even">
              <button type="button" onClick={() => setWhich(null)}>
                Back
              </button>
              <button type="button" class="main" disabled={busy} onClick={() => answer(false)}>
                {which.length === 0 ? 'All of them' : 'These'}
              </button>
            </div>
          </div>
        }
      >
        <UnsureSteps shown={shown} draft={draft} value={which} onChange={setWhich} />
      </Sheet>
    );
  return (
    <Sheet
      key="ask"
      title={props.title}
      bare
      top={props.top}
      bar={
        <div class="bar">
          <p class="small soft">
            {shown.form === 'run' ? 'Complete? Then say how sure you are.' : 'Would you do this without looking?'}
          </p>
          <div class="row even thirds">
            <button type="button" class="main" disabled={!complete || busy} onClick={() => answer(true)}>
              Sure
            </button>
            <button type="button" disabled={!complete || busy} onClick={() => answer(false)}>
              Not sure
            </button>
            <button type="button" disabled={busy} onClick={() => answer(null)}>
              Don't know
            </button>
          </div>
        </div>
      }
    >
      {props.children}
      <Question shown={shown} draft={draft} disabled={busy} onDraft={props.onDraft} />
    </Sheet>
  );
}
