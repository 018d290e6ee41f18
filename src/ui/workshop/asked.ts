import { signal } from '@preact/signals';

/** What a trainee queried, on the way from the class table to the step it is about. */
export interface Asked {
  /** Id of the draft. */
  readonly draft: string;
  /** Id of the step, limit, scenario or procedure. */
  readonly thing: string;
  readonly who: string;
  /** ISO. */
  readonly on: string;
  /** In the trainee's words; may be empty. */
  readonly note: string;
}

/**
 * The one that was opened last; null: none, or put away. In this tab alone: drafts go into saved copies, and what
 * trainees wrote stays in the class.
 */
export const asked = signal<Asked | null>(null);
