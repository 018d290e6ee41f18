import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Draft } from '../../drill/types.ts';
import type { Shown } from '../../model/form.ts';
import type { Sure } from '../../model/item.ts';
import type { FormUi } from '../forms/contract.ts';
import { draftComplete } from '../forms/registry.ts';
import { EditBar } from './EditBar.tsx';
import '../forms/dense.css';
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
  readonly children?: ComponentChildren;
  readonly onDraft: (draft: Draft) => void;
  /** @param unsure ids of the steps named as not sure; empty: all */
  readonly onAnswer: (sure: Sure, unsure: readonly string[]) => void;
}) {
  const { shown, draft, busy } = props;
  const { Question, UnsureSteps, Move } = props.form;
  /** Not sure in a run: which steps? null before that was said. */
  const [which, setWhich] = useState<readonly string[] | null>(null);
  const [editing, setEditing] = useState<'no' | 'tools' | 'moving'>('no');
  const edit = useRef<HTMLButtonElement>(null);
  const edited = useRef(false);
  useLayoutEffect(() => {
    if (editing === 'no' && edited.current) edit.current?.focus({ preventScroll: true });
    edited.current = editing !== 'no';
  }, [editing]);
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
  const moving = editing === 'moving' && Move !== undefined && (draft.order?.length ?? 0) > 1;
  const asked = { shown, draft, disabled: busy, onDraft: props.onDraft };
  return (
    <Sheet
      key="ask"
      title={props.title}
      bare
      dense
      top={props.top}
      bar={
        editing !== 'no' ? (
          <EditBar
            {...asked}
            moving={moving}
            onMoving={(on) => setEditing(on ? 'moving' : 'tools')}
            onDone={() => setEditing('no')}
          />
        ) : (
          <div class="bar">
            <p class="hint small soft">{hintOf(shown, draft, complete)}</p>
            <div class="row even thirds">
              {Move !== undefined && (
                <button
                  type="button"
                  ref={edit}
                  disabled={busy || draft.order === undefined}
                  onClick={() => setEditing('tools')}
                >
                  Edit
                </button>
              )}
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
        )
      }
    >
      {props.children}
      {moving ? <Move {...asked} /> : <Question {...asked} />}
    </Sheet>
  );
}

/** One line, so that the buttons below it stay where they are. */
const hintOf = (shown: Shown, draft: Draft, complete: boolean): string => {
  if (shown.form !== 'run') return 'Would you act on it without looking it up?';
  if (!complete || draft.order?.length === 0) return 'Tap in order. Some may not belong.';
  return 'Complete? Say how sure you are.';
};
