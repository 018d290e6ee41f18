import '../../../src/ui/base.css';
import '../../../src/ui/screens.css';
import { signal } from '@preact/signals';
import { render } from 'preact';
import type { Draft, Told } from '../../../src/drill/types.ts';
import type { Shown } from '../../../src/model/form.ts';
import type { FormUi } from '../../../src/ui/forms/contract.ts';
import { formUi } from '../../../src/ui/forms/registry.ts';
import type { DrillModel } from '../../../src/ui/models/drill.ts';
import { Ask } from '../../../src/ui/parts/Ask.tsx';
import { AskedFrom } from '../../../src/ui/parts/AskedFrom.tsx';
import { Sheet } from '../../../src/ui/parts/Sheet.tsx';
import { Fate, VerdictBar } from '../../../src/ui/screens/drill-verdict.tsx';

/** One thing to hang up: a question as it is put, the steps that are not sure, or a verdict. */
export type Exhibit =
  | { readonly part: 'question'; readonly shown: Shown; readonly draft?: Draft; readonly disabled?: boolean }
  | { readonly part: 'unsure'; readonly shown: Shown; readonly draft: Draft }
  | { readonly part: 'verdict'; readonly shown: Shown; readonly told: Told };

/** How a question was answered: true sure, false not sure, null not known. */
export interface Answered {
  readonly sure: boolean | null;
  readonly unsure: readonly string[];
}

/** What the tests call in the page. */
export interface Gallery {
  show(exhibit: Exhibit): Promise<void>;
  /** What was entered so far. */
  draft(): Draft;
  /** Ids of the steps named as not sure. */
  unsure(): readonly string[];
  /** Of the question that hangs. */
  answered(): Answered | null;
}

const draft = signal<Draft>({});
const unsure = signal<readonly string[]>([]);
const answered = signal<Answered | null>(null);

/** A new one each time, so that nothing of the one before is kept. */
let count = 0;

/** As high as in a drill, and as much in it. */
const top = (
  <header class="top">
    <a class="button plain" href="#/">
      Leave
    </a>
    <div class="whence">
      <AskedFrom invented title="A deck with a title of some length" />
      <progress class="progress" max={10} value={3} aria-label="Time used" />
    </div>
    <span class="number time soft">3 of 10 min</span>
  </header>
);

/** What the bar of a verdict needs of a drill. */
const drill = { busy: signal(false) } as unknown as DrillModel;

function Hung(props: { readonly exhibit: Exhibit; readonly form: FormUi }) {
  const { exhibit, form } = props;
  const { Verdict, UnsureSteps } = form;
  if (exhibit.part === 'verdict')
    return (
      <Sheet
        title="Verdict"
        bare
        top={top}
        bar={<VerdictBar drill={drill} now={{ ...exhibit.told, entry: 'stored' }} onQuery={() => undefined} />}
      >
        <Fate now={exhibit.told} />
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
  return (
    <Ask
      title="Question"
      shown={exhibit.shown}
      draft={draft.value}
      form={form}
      busy={exhibit.disabled ?? false}
      top={top}
      onDraft={(next) => {
        draft.value = next;
      }}
      onAnswer={(sure, named) => {
        answered.value = { sure, unsure: named };
      }}
    />
  );
}

const gallery: Gallery = {
  show: async (exhibit) => {
    const form = await formUi(exhibit.shown.form);
    draft.value = exhibit.part === 'question' ? (exhibit.draft ?? {}) : {};
    unsure.value = [];
    answered.value = null;
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
  answered: () => answered.value,
};
Object.assign(window, { gallery });
