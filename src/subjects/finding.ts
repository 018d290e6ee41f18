/** What the checker may say of a deck. Errors stop an install; warnings and hints never do. */
export const SEVERITIES = {
  // The text
  'too-big': 'error',
  'too-deep': 'error',
  unreadable: 'error',
  'number-size': 'error',
  'key-forbidden': 'error',
  'key-twice': 'error',
  // Shape
  'unknown-key': 'error',
  'missing-key': 'error',
  'wrong-type': 'error',
  'not-a-choice': 'error',
  'wrong-form': 'error',
  'too-few': 'error',
  'too-many': 'error',
  'too-small': 'error',
  // Names and references
  'id-twice': 'error',
  'name-unfit': 'error',
  'name-twice': 'error',
  'unknown-reference': 'error',
  'options-few': 'error',
  'range-empty': 'error',
  'step-size': 'error',
  'use-cycle': 'error',
  'too-many-steps': 'error',
  // Formulas and texts
  'formula-syntax': 'error',
  'formula-name': 'error',
  'formula-kind': 'error',
  'formula-result': 'error',
  'formula-limit': 'error',
  'formula-table': 'error',
  'place-unknown': 'error',
  'text-long': 'warning',
  'text-html': 'hint',
  // The deck as a whole
  'date-impossible': 'error',
  'review-early': 'error',
  'review-passed': 'warning',
  'until-early': 'error',
  'until-passed': 'warning',
  'source-missing': 'warning',
  'edition-alone': 'warning',
  'nothing-asked': 'warning',
  'deck-unnamed': 'hint',
  // Procedures
  'step-silent': 'error',
  'block-shape': 'error',
  'cue-empty': 'error',
  'amount-empty': 'error',
  'wait-unit': 'error',
  'order-cycle': 'error',
  'same-words': 'error',
  'stranger-real': 'error',
  'if-never': 'error',
  'words-number': 'warning',
  'read-list-run': 'warning',
  'order-reason': 'hint',
  // Limits
  'limit-empty': 'error',
  'limit-both': 'error',
  'sense-unfit': 'error',
  'strict-unfit': 'error',
  'show-unit': 'error',
  'given-unfit': 'error',
  'rows-order': 'error',
  'table-unused': 'warning',
  'limit-asks-day': 'error',
  'picture-unfit': 'error',
  'case-overlap': 'error',
  'variant-no-case': 'warning',
  'case-gap': 'warning',
  'slip-right': 'warning',
  // Scenarios
  'scenario-never': 'error',
  'scenario-rare': 'hint',
  'rule-never': 'error',
  'rule-rare': 'hint',
  'rule-none': 'warning',
  'draw-no-value': 'warning',
  'wind-unsound': 'warning',
  'near-v1': 'hint',
  'runway-degrees': 'warning',
  'direction-range': 'warning',
  'events-blank': 'hint',
  'condition-unused': 'hint',
  // Paced runs, the plan of the flight deck
  'paced-read': 'error',
  'paced-twice': 'error',
  'paced-cue': 'error',
  'paced-moment': 'error',
  'paced-ground': 'error',
  'paced-wind': 'error',
  'paced-without': 'error',
  'paced-share': 'error',
  'paced-zero': 'error',
  'paced-engines': 'error',
  'paced-pitch': 'error',
  'paced-never': 'error',
  'area-empty': 'error',
  'area-outside': 'error',
} as const satisfies Readonly<Record<string, Severity>>;

export type Severity = 'error' | 'warning' | 'hint';
export type Code = keyof typeof SEVERITIES;
export type Args = Readonly<Record<string, string | number>>;

export interface Finding {
  readonly code: Code;
  readonly severity: Severity;
  /** JSON Pointer (RFC 6901); '' is the whole deck. */
  readonly path: string;
  readonly args: Args;
  /** From 1; where the text could not be read as JSON. */
  readonly line?: number;
  /** From 1, in UTF-16 units. */
  readonly column?: number;
}

export const finding = (code: Code, path: string, args: Args = {}): Finding => ({
  code,
  severity: SEVERITIES[code],
  path,
  args,
});

/** Notes a finding. */
export type Add = (code: Code, path: string, args?: Args) => void;

/** Goes one or more steps down a JSON Pointer: `~` and `/` in keys are escaped. */
export const at = (path: string, ...keys: readonly (string | number)[]): string =>
  path + keys.map((k) => `/${String(k).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');

/** Long foreign text must not fill the screen. */
export const short = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}…` : text);
