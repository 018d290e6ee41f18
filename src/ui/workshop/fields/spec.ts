import type { VNode } from 'preact';
import type { Change } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers, type Members } from '../../../lib/json.ts';

/** Where a field stands: what holds it, its pointer, and the whole draft. */
export interface Place {
  readonly doc: Json;
  /** Pointer of the object that holds the field. */
  readonly path: string;
  readonly value: Members;
}

/** What a reference may name. */
export type Refer =
  | 'limit'
  | 'number-limit'
  | 'step'
  | 'step-or-block'
  | 'block'
  | 'day'
  | 'yes-no'
  | 'crew'
  | 'scenario-ask'
  /** Procedures that a paced run may play; steps of those that it plays. */
  | 'played'
  | 'played-step'
  | 'area'
  /** Of the options of the same limit or question. */
  | 'option';

/** One value in a list. */
export type Single =
  | { readonly is: 'words' }
  | { readonly is: 'formula' }
  | { readonly is: 'number' }
  | { readonly is: 'refer'; readonly to: Refer };

export type Kind =
  /** `filled`: names of values in braces are filled in. */
  | { readonly is: 'words'; readonly long?: true; readonly filled?: true }
  | { readonly is: 'formula' }
  | { readonly is: 'number' }
  | { readonly is: 'date' }
  /** `inherits`: three answers, the first is "as what stands around it". */
  | { readonly is: 'yes'; readonly inherits?: string }
  | { readonly is: 'choice'; readonly of: Choices }
  /** `words`: members from whose words it is minted, `plain`: how it is called before there are any. */
  | Id
  /** `free`: words of one's own where there is nothing to choose from. */
  | { readonly is: 'refer'; readonly to: Refer; readonly free?: true }
  /** Words by which others name it. */
  | { readonly is: 'called' }
  | { readonly is: 'source' }
  | { readonly is: 'band' }
  | { readonly is: 'when' }
  | { readonly is: 'given' }
  | { readonly is: 'rows' }
  | { readonly is: 'strangers' }
  | { readonly is: 'list'; readonly of: Single; readonly add: string }
  | { readonly is: 'part'; readonly fields: Fields; readonly add: string; readonly blank: Json }
  | Things
  | Kept
  /** Written elsewhere, or not by hand. */
  | { readonly is: 'elsewhere' };

export interface Id {
  readonly is: 'id';
  readonly words: readonly string[];
  readonly plain: string;
  /** An id of the deck; a name of formulas; a member of the crew, who may be called PF. */
  readonly form: 'id' | 'name' | 'crew';
}

/** A list of objects, in an order that the author gives. */
export interface Things {
  readonly is: 'things';
  readonly each: Shape;
  readonly add: string;
  /** What one is called: "Case". */
  readonly one: string;
  /** Words by which an author knows one of them, folded; else the first of its own. */
  readonly title?: (doc: Json, path: string) => string;
  readonly blank: (doc: Json, list: string) => Json;
  /** Besides putting in the first of them: what moves into it. */
  readonly first?: (place: Place) => readonly Change[] | null;
}

/** A record whose keys the author gives. */
export interface Kept {
  readonly is: 'record';
  readonly key: string;
  /** How a new key begins, and whether it is a name of formulas. */
  readonly plain: string;
  readonly name?: true;
  /** Written like a name or like an id. */
  readonly free?: true;
  readonly each: Shape | { readonly single: 'words' | 'formula'; readonly label: string };
  readonly add: string;
  readonly one: string;
}

export type Choices = readonly (readonly [value: string, label: string])[];

export interface Spec {
  readonly label: string;
  /** What to write, with an invented example. */
  readonly help?: string;
  readonly kind: Kind;
  /** Stays as an empty text when emptied; optional ones go. */
  readonly required?: true;
  /** Under "More". */
  readonly more?: true;
  /** Shown where empty only when this holds; what is filled is always shown. */
  readonly when?: (place: Place) => boolean;
  /** Stands below the field: something to be pressed, or to be minded. @param props.path of the field */
  readonly aid?: (props: { readonly path: string }) => VNode | null;
}

export type Fields = { readonly [key: string]: Spec };

/** One way to be written, of several or alone. */
export interface Variety {
  readonly label: string;
  readonly fields: Fields;
  readonly is: (value: Members) => boolean;
  /** Members that a value of this kind must have. */
  readonly blank: Members;
}
/** The first that fits counts; the last is taken where none does. */
export type Shape = readonly [Variety, ...Variety[]];

export const only = (fields: Fields): Shape => [{ label: '', fields, is: () => true, blank: {} }];

/** Of each member of a type one field: the compiler names what is missing. */
export type FieldsOf<T> = {
  readonly [K in keyof T]-?: Record<never, never> extends Pick<T, K>
    ? Spec & { readonly required?: never }
    : Spec & { readonly required: true };
};

export const varietyOf = (shape: Shape, value: Json | undefined): Variety =>
  shape.find((one) => one.is(isMembers(value) ? value : {})) ?? (shape[shape.length - 1] as Variety);
