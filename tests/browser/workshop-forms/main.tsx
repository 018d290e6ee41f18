import '../../../src/ui/base.css';
import '../../../src/ui/screens.css';
import '../../../src/ui/workshop/workshop.css';
import { render } from 'preact';
import { blankDeck, blankLimit, blankProcedure, blankScenario } from '../../../src/draft/blank.ts';
import { insert } from '../../../src/draft/change.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { Sheet } from '../../../src/ui/parts/Sheet.tsx';
import { Saying } from '../../../src/ui/workshop/fields/Saying.tsx';
import {
  AreasForm,
  ConditionsForm,
  CrewForm,
  DayForm,
  HeadForm,
  LimitForm,
  PacedForm,
  SourcesForm,
  VariantsForm,
} from '../../../src/ui/workshop/forms/DeckForms.tsx';
import {
  BlockForm,
  ProcedureHead,
  StepForm,
  StrangersForm,
  UseForm,
} from '../../../src/ui/workshop/forms/ProcedureForms.tsx';
import { ScenarioForm } from '../../../src/ui/workshop/forms/ScenarioForm.tsx';
import { createDraft, type DraftModel } from '../../../src/ui/workshop/model/draft.ts';
import { DraftBar } from '../../../src/ui/workshop/parts/DraftBar.tsx';
import { ProcedurePage } from '../../../src/ui/workshop/procedure/ProcedurePage.tsx';
import { fillForm } from './driver.ts';

/** All of a procedure, its line with the forms in it. @param props.path of the procedure */
const LinePage = ({ draft, path }: { readonly draft: DraftModel; readonly path: string }) => (
  <ProcedurePage draft={draft} index={Number(path.split('/')[2])} />
);

const FORMS = {
  head: HeadForm,
  sources: SourcesForm,
  variants: VariantsForm,
  crew: CrewForm,
  day: DayForm,
  conditions: ConditionsForm,
  areas: AreasForm,
  paced: PacedForm,
  procedure: ProcedureHead,
  line: LinePage,
  step: StepForm,
  block: BlockForm,
  use: UseForm,
  strangers: StrangersForm,
  limit: LimitForm,
  scenario: ScenarioForm,
} as const;
export type FormName = keyof typeof FORMS;

/** A draft that is kept nowhere. */
const begun = (value: Json): DraftModel =>
  createDraft(
    { store: { drafts: { put: async () => 'kept' } }, device: { now: () => 0, seed: () => 0 } } as never as Learner,
    { id: 'draft', seq: 1, made: 0, changed: 0, value, history: null, side: {}, base: null },
  );

let draft = begun(blankDeck('2026-09-01'));

const shown = {
  /** Begins a draft: with nothing in it, or with a value. */
  begin(value?: Json): void {
    draft = begun(value ?? blankDeck('2026-09-01'));
  },
  async show(form: FormName, path: string): Promise<void> {
    const One = FORMS[form];
    render(
      <div class="app broad" key={`${form} ${path}`}>
        <Sheet title={`${form} ${path}`}>
          <Saying page={path}>
            <One draft={draft} path={form === 'strangers' ? path.replace(/\/strangers$/, '') : path} />
          </Saying>
        </Sheet>
      </div>,
      document.getElementById('app') as HTMLElement,
    );
    await new Promise((done) => setTimeout(done));
  },
  /** Undo and redo alone. */
  async bar(): Promise<void> {
    render(<DraftBar draft={draft} page="" />, document.getElementById('app') as HTMLElement);
    await new Promise((done) => setTimeout(done));
  },
  /** As the pages of the draft do it. */
  add(section: 'procedures' | 'limits' | 'scenarios', index: number): void {
    const blank = { procedures: blankProcedure, limits: blankLimit, scenarios: blankScenario }[section];
    draft.change('Added', [insert(`/${section}`, index, blank(draft.value.peek()))]);
  },
  /** A node where it would be made in the line of its procedure: of a step its id alone, of a block what it holds. */
  addNode(list: string, index: number, node: Json): void {
    draft.change('Added', [insert(list, index, node)]);
  },
  fill: fillForm,
  value: (): Json => draft.value.peek(),
  undoes: (): string | null => draft.undoes.peek(),
  undo: (): void => void draft.undo(),
};
export type Shown = typeof shown;
Object.assign(window, { forms: shown });
