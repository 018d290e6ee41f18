import type { Basis, Done, Nature, Sense, Show } from '../../../model/deck.ts';
import { UNITS } from '../../../model/deck.ts';
import type { Choices } from '../fields/spec.ts';

const listed = <T extends string>(words: Readonly<Record<T, string>>): Choices =>
  Object.entries(words) as [string, string][];

export const NATURE_CHOICES = listed<Nature>({
  operator: 'An operator’s own content',
  public: 'Public rules',
  fictional: 'Invented, for practice',
});

export const BASIS_CHOICES = listed<Basis>({
  published: 'Published',
  operator: 'Operator’s manual',
  'common-practice': 'Common practice, no source',
  'from-memory': 'From memory',
  invented: 'Invented',
});

export const DONE_CHOICES = listed<Done>({
  memory: 'From memory',
  flow: 'As a flow',
  'read-and-do': 'Read and do',
  'challenge-response': 'Challenge and response',
});

export const SENSE_CHOICES = listed<Sense>({
  exactly: 'Exactly',
  'at least': 'At least',
  'at most': 'At most',
  'from-to': 'From … to',
  about: 'About',
});

export const SHOW_CHOICES = listed<Show>({
  direction: 'Direction: 360, 045',
  runway: 'Runway: 07',
  'flight-level': 'Flight level: FL 180',
  mach: 'Mach: M 0.78',
});

export const UNIT_CHOICES: Choices = UNITS.map((unit) => [unit, unit]);

export const METHOD_CHOICES = listed<'step' | 'linear'>({
  step: 'The row at or below',
  linear: 'Between the rows, in proportion',
});
