import { Found } from '../fields/Labelled.tsx';
import { ThingsField } from '../fields/Many.tsx';
import { Shaped } from '../fields/Shaped.tsx';
import type { Things } from '../fields/spec.ts';
import type { DraftModel } from '../model/draft.ts';
import { PlanSketch } from '../parts/PlanSketch.tsx';
import { CONDITIONS, CREW, DAY, DECK, SOURCES, VARIANTS } from './deck-fields.ts';
import { Form, type FormProps, ObjectForm } from './Form.tsx';
import { LIMIT } from './limit-fields.ts';
import { AREAS, PACED_RUNS } from './paced-fields.ts';

interface Props {
  readonly draft: DraftModel;
}

/** What is said of the deck as a whole. */
export function HeadForm({ draft }: Props) {
  return <ObjectForm draft={draft} path="" fields={DECK} more="More about this deck" />;
}

function ListForm(props: Props & { readonly path: string; readonly kind: Things; readonly about: string }) {
  const { draft, path, kind, about } = props;
  return (
    <Form draft={draft}>
      <p class="soft">{about}</p>
      <Found path={path} />
      <ThingsField
        bare
        path={path}
        kind={kind}
        spec={{ label: kind.one, kind, ...(path === '/sources' && { required: true }) }}
      />
    </Form>
  );
}

export function SourcesForm({ draft }: Props) {
  return (
    <ListForm
      draft={draft}
      path="/sources"
      kind={SOURCES}
      about="The manuals and rules that this deck was written from. Each thing of the deck names one of them and the place in it."
    />
  );
}

export function VariantsForm({ draft }: Props) {
  return (
    <ListForm
      draft={draft}
      path="/variants"
      kind={VARIANTS}
      about="What differs between aircraft or operators and changes what is right, such as the engine. Each learner says what they fly."
    />
  );
}

export function CrewForm({ draft }: Props) {
  return (
    <ListForm
      draft={draft}
      path="/crew"
      kind={CREW}
      about="PF, PM, Both and Either are there already. Add who else acts or speaks."
    />
  );
}

export function DayForm({ draft }: Props) {
  return (
    <ListForm
      draft={draft}
      path="/day"
      kind={DAY}
      about="What the day gives, such as V1: drawn and shown, never asked. Texts take it as {v1}."
    />
  );
}

export function ConditionsForm({ draft }: Props) {
  return (
    <ListForm
      draft={draft}
      path="/conditions"
      kind={CONDITIONS}
      about="Circumstances on which steps, cases of limits and answers depend. They are drawn and told with the question."
    />
  );
}

export function AreasForm({ draft }: Props) {
  return (
    <>
      <ListForm
        draft={draft}
        path="/areas"
        kind={AREAS}
        about="A blank plan of the flight deck, seen as a pilot sits: rectangles of your own, one for each place that steps name. One may lie within another."
      />
      {/* Below the fields: as it grows, none of them moves. */}
      <PlanSketch draft={draft} />
    </>
  );
}

export function PacedForm({ draft }: Props) {
  return (
    <ListForm
      draft={draft}
      path="/paced"
      kind={PACED_RUNS}
      about="A take-off that is played in time. The aeroplane is a point mass: take plausible numbers, and mark them as invented by their source."
    />
  );
}

/** A number, one of some answers, or a table. */
export function LimitForm({ draft, path }: FormProps) {
  return (
    <Form draft={draft}>
      <Shaped shape={LIMIT} path={path} more="More about this limit" />
    </Form>
  );
}
