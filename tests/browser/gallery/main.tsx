import '../../../src/ui/base.css';
import '../../../src/ui/screens.css';
import { signal } from '@preact/signals';
import { render } from 'preact';
import type { Draft, Told } from '../../../src/drill/types.ts';
import type { Shown } from '../../../src/model/form.ts';
import type { FormUi } from '../../../src/ui/forms/contract.ts';
import { draftComplete, formUi } from '../../../src/ui/forms/registry.ts';
import { Sheet } from '../../../src/ui/parts/Sheet.tsx';

/** One thing to hang up: a question as it is put, the steps that are not sure, or a verdict. */
export type Exhibit =
  | { readonly part: 'question'; readonly shown: Shown; readonly draft?: Draft; readonly disabled?: boolean }
  | { readonly part: 'unsure'; readonly shown: Shown; readonly draft: Draft }
  | { readonly part: 'verdict'; readonly shown: Shown; readonly told: Told };

/** What the tests call in the page. */
export interface Gallery {
  show(exhibit: Exhibit): Promise<void>;
  /** What was entered so far. */
  draft(): Draft;
  /** Ids of the steps named as not sure. */
  unsure(): readonly string[];
}

const draft = signal<Draft>({});
const unsure = signal<readonly string[]>([]);

/** A new one each time, so that nothing of the one before is kept. */
let count = 0;

function Hung(props: { readonly exhibit: Exhibit; readonly form: FormUi }) {
  const { exhibit, form } = props;
  const { Question, Verdict, UnsureSteps } = form;
  if (exhibit.part === 'verdict')
    return (
      <Sheet
        title="Verdict"
        bare
        bar={
          <div class="bar">
            <button type="button" class="main wide">
              Next
            </button>
          </div>
        }
      >
        <Verdict shown={exhibit.shown} told={exhibit.told} />
      </Sheet>
    );
  if (exhibit.part === 'unsure')
    return (
      <Sheet title="Which steps are you not sure of?">
        {UnsureSteps !== undefined && (
          <UnsureSteps
            shown={exhibit.shown}
            draft={exhibit.draft}
            value={unsure.value}
            onChange={(value) => {
              unsure.value = value;
            }}
          />
        )}
      </Sheet>
    );
  const complete = draftComplete(exhibit.shown, draft.value);
  return (
    <Sheet
      title="Question"
      bare
      bar={
        <div class="bar">
          <div class="row">
            <button type="button" class="main" disabled={!complete}>
              Sure
            </button>
            <button type="button" disabled={!complete}>
              Not sure
            </button>
            <button type="button">Don't know</button>
          </div>
        </div>
      }
    >
      <Question
        shown={exhibit.shown}
        draft={draft.value}
        disabled={exhibit.disabled ?? false}
        onDraft={(next) => {
          draft.value = next;
        }}
      />
    </Sheet>
  );
}

const gallery: Gallery = {
  show: async (exhibit) => {
    const form = await formUi(exhibit.shown.form);
    draft.value = exhibit.part === 'question' ? (exhibit.draft ?? {}) : {};
    unsure.value = [];
    count += 1;
    render(
      <div class="app" key={count}>
        <Hung exhibit={exhibit} form={form} />
      </div>,
      document.getElementById('app') as HTMLElement,
    );
  },
  draft: () => draft.value,
  unsure: () => unsure.value,
};
Object.assign(window, { gallery });
