import type { ComponentType } from 'preact';
import type { Draft, Told } from '../../drill/types.ts';
import type { Shown } from '../../model/form.ts';

/** The screen's side of one way to ask. A form's own component may rely on `shown.form` being its own. */
export interface FormUi {
  readonly Question: ComponentType<QuestionProps>;
  readonly Verdict: ComponentType<VerdictProps>;
  /** Forms of several steps: which of them are not sure. */
  readonly UnsureSteps?: ComponentType<UnsureProps>;
  /** Forms whose steps are numbered (`draft.order`): the question while they are moved. */
  readonly Move?: ComponentType<QuestionProps>;
}

export interface QuestionProps<S extends Shown = Shown> {
  readonly shown: S;
  readonly draft: Draft;
  readonly disabled: boolean;
  readonly onDraft: (draft: Draft) => void;
}

export interface VerdictProps<S extends Shown = Shown> {
  readonly shown: S;
  readonly told: Told;
}

export interface UnsureProps<S extends Shown = Shown> {
  readonly shown: S;
  readonly draft: Draft;
  /** Ids named so far. */
  readonly value: readonly string[];
  readonly onChange: (value: readonly string[]) => void;
}
