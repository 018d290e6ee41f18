/**
 * What a deck can say: the authored file, as TypeScript types.
 *
 * The valibot schema (src/subjects/<subject>/shape.ts, src/deck/schema.ts) is held to these types by
 * the compiler, and the JSON Schema in shared/ is generated from the valibot schema.
 */

/** `[a-z0-9][a-z0-9-]*`, unique among all things of a deck, stable for ever: memory hangs on it. */
export type Id = string;
/** A formula in the confined CEL grammar (src/formula). Names match `[a-z][A-Za-z0-9]*`. */
export type FormulaText = string;
/** Text for people: plain, with `{name}` places for values of the day and drawn values, and the small CommonMark subset. */
export type Text = string;
/** ISO 8601 calendar date, `2026-11-25`. */
export type IsoDate = string;
/** `source-id` or `source-id#place`, for example `som#3.2`. */
export type SourceRef = string;

export const NATURES = ['fictional', 'public', 'operator'] as const;
export type Nature = (typeof NATURES)[number];

export const BASES = ['published', 'operator', 'common-practice', 'from-memory', 'invented'] as const;
export type Basis = (typeof BASES)[number];

export const DONE = ['memory', 'flow', 'read-and-do', 'challenge-response'] as const;
export type Done = (typeof DONE)[number];

export const SENSES = ['exactly', 'at least', 'at most', 'from-to', 'about'] as const;
export type Sense = (typeof SENSES)[number];

export const SHOWS = ['direction', 'runway', 'flight-level', 'mach'] as const;
/** Trade form of a number: direction 360 not 000, runway 07, FL 180, M 0.78. */
export type Show = (typeof SHOWS)[number];

/** What the trade writes; src/model/units.ts maps each to its UCUM code. */
export const UNITS = [
  'kt',
  'm/s',
  'km/h',
  'Mach',
  'ft',
  'm',
  'NM',
  'km',
  'FL',
  'ft/min',
  'ft/NM',
  '°',
  '°/s',
  '°C',
  'hPa',
  'inHg',
  'psi',
  'kg',
  't',
  'lb',
  'kg/h',
  's',
  'min',
  'h',
  'days',
  'months',
  '%',
  '% N1',
  'EPR',
  'g',
  'dot',
  'V',
  'SM',
  'MHz',
  '×',
] as const;
export type Unit = (typeof UNITS)[number];

/** Confines a thing to variants: per axis one option or several; all axes named must hold. `not` inverts. */
export type When = { readonly not: When } | { readonly [axis: Id]: Id | readonly Id[] };

/** Confines a case to named conditions: a choice by option id, a yes/no by truth value, a number by a half-open range [from, to). */
export type Given = { readonly [condition: string]: string | boolean | GivenRange };
export interface GivenRange {
  readonly from?: number;
  readonly to?: number;
}

export interface Source {
  readonly id: Id;
  readonly title: string;
  readonly edition?: string;
  readonly issued?: IsoDate;
  readonly basis: Basis;
  readonly url?: string;
}

export interface VariantAxis {
  readonly id: Id;
  readonly label: string;
  /** option id → label; at least two. */
  readonly options: { readonly [option: Id]: string };
}

export interface CrewMember {
  readonly id: string;
  readonly label: string;
}

/** A value the day gives (V1, QNH): drawn, shown, never asked. */
export interface DayValue {
  /** A formula name. */
  readonly id: string;
  readonly label: string;
  readonly unit: Unit;
  readonly from: number;
  readonly to: number;
  /** Default 1. */
  readonly step?: number;
  readonly show?: Show;
  /** Truth formulas over values of the day, such as `v1 <= vr`. */
  readonly require?: readonly FormulaText[];
}

/** A circumstance drawn for a question: yes/no, one of some choices, or a number. */
export type Condition = YesNoCondition | ChoiceCondition | NumberCondition;
interface ConditionBase {
  /** A formula name. */
  readonly id: string;
  readonly label: string;
}
export interface YesNoCondition extends ConditionBase {
  /** How each is put to the learner. */
  readonly yes: string;
  readonly no: string;
}
export interface ChoiceCondition extends ConditionBase {
  readonly options: { readonly [option: string]: string };
}
export interface NumberCondition extends ConditionBase {
  readonly unit: Unit;
  readonly from: number;
  readonly to: number;
  readonly step?: number;
}

export interface Cue {
  readonly text?: Text;
  /** A limit whose value is the cue (a gate height is written once). */
  readonly limit?: Id;
  /** A value of the day that is the cue, such as V1. */
  readonly day?: string;
  /** A yes/no condition whose coming true is the cue. */
  readonly event?: string;
}

/** Where an action that is held starts or ends. */
export interface Bound {
  readonly text?: Text;
  readonly limit?: Id;
  readonly day?: string;
}

export interface Amount {
  readonly limit?: Id;
  readonly value?: number;
  readonly unit?: Unit;
}

export interface Wait {
  readonly step: Id;
  readonly atLeast?: Amount;
  readonly atMost?: Amount;
}

export interface Step {
  readonly id: Id;
  readonly do?: Text;
  readonly say?: Text;
  readonly by?: string;
  readonly cue?: Cue;
  readonly from?: Bound;
  readonly until?: Bound;
  /** A wait after another step; also a precedence. */
  readonly after?: Wait;
  /** The limit that holds this step's number. */
  readonly limit?: Id;
  /** `scenario#ask` that gives its amount. */
  readonly rule?: string;
  /** The step this one responds to; also a precedence. */
  readonly answers?: Id;
  readonly ifNoAnswer?: Text;
  /** Steps (or blocks) that must be done before, across lanes. */
  readonly needs?: readonly Id[];
  readonly why?: Text;
  /** The usual wrong habit, perhaps from another type. */
  readonly slip?: Text;
  readonly alsoSay?: readonly Text[];
  readonly alsoDo?: readonly Text[];
  /** Panel area. */
  readonly where?: string;
  readonly when?: When;
  readonly if?: FormulaText;
  readonly critical?: boolean;
  readonly source?: SourceRef;
  /** `facet~stamp`: old stamps that this thing's memory is kept from. */
  readonly keeps?: readonly string[];
}

/** Exactly one of `steps` and `lanes`. `together`: done at once, any order is right. */
export interface Block {
  readonly id?: Id;
  readonly if?: FormulaText;
  readonly when?: When;
  readonly together?: boolean;
  readonly steps?: readonly Node[];
  readonly lanes?: readonly (readonly Node[])[];
}

/** Takes a named block of another procedure together with its memory. */
export interface Use {
  readonly use: Id;
  readonly if?: FormulaText;
  readonly when?: When;
}

export type Node = Step | Block | Use;

/** A step that does not belong, with the reason if there is one. */
export interface Stranger {
  readonly text: Text;
  readonly note?: Text;
}

export interface Procedure {
  readonly id: Id;
  readonly title: string;
  /** The state of affairs in which it starts. */
  readonly starts?: Text;
  readonly done: Done;
  /** Who calls for it, and with which words (read-and-do and challenge-response lists). */
  readonly calledBy?: string;
  readonly called?: Text;
  readonly steps: readonly Node[];
  readonly strangers?: readonly (Text | Stranger)[];
  readonly why?: Text;
  readonly critical?: boolean;
  readonly when?: When;
  readonly source?: SourceRef;
}

/** Accepted distance from the value, absolute: symmetric number, or `{plus, minus}` (both ≥ 0). Default 0. */
export type Band = number | { readonly plus: number; readonly minus: number };

export interface LimitSlip {
  readonly value: number;
  readonly note: Text;
}

export interface LimitCase {
  readonly id: Id;
  readonly when?: When;
  readonly given?: Given;
  /** For every sense but from-to. */
  readonly value?: number;
  /** For sense from-to. */
  readonly from?: number;
  readonly to?: number;
  readonly source?: SourceRef;
  readonly critical?: boolean;
  readonly note?: Text;
}

interface LimitBase {
  readonly id: Id;
  readonly ask: Text;
  readonly why?: Text;
  readonly slip?: Text;
  readonly source?: SourceRef;
  readonly critical?: boolean;
  readonly when?: When;
  readonly keeps?: readonly string[];
}

/** A number. Either `cases`, or `value` / `from`+`to` directly (one case named `standard`). */
export interface NumberLimit extends LimitBase {
  readonly unit: Unit;
  /** Datum or qualifier: AAL, IAS, MSL. */
  readonly reference?: string;
  readonly sense: Sense;
  /** "below" and "above" instead of "at most" and "at least". */
  readonly strict?: boolean;
  readonly show?: Show;
  readonly accept?: Band;
  readonly value?: number;
  readonly from?: number;
  readonly to?: number;
  readonly cases?: readonly LimitCase[];
  readonly slips?: readonly LimitSlip[];
}

export interface FactCase {
  readonly id: Id;
  readonly when?: When;
  readonly given?: Given;
  /** Option id. */
  readonly is: Id;
  readonly source?: SourceRef;
  readonly critical?: boolean;
  readonly note?: Text;
}

/** A limit whose value is one of named choices. Either `cases` or `is` (one case named `standard`). */
export interface FactLimit extends LimitBase {
  readonly options: { readonly [option: Id]: string };
  readonly is?: Id;
  readonly cases?: readonly FactCase[];
  readonly slips?: readonly { readonly is: Id; readonly note: Text }[];
}

/** What is read from a table; usable in formulas by `lookup("id", x)`. Asked row by row only when `asked`. */
export interface TableLimit extends LimitBase {
  readonly unit: Unit;
  readonly reference?: string;
  readonly accept?: Band;
  readonly table: {
    readonly input: { readonly label: string; readonly unit: Unit };
    /** step: the row with the greatest input not above x; linear: between rows. Outside the rows: not a number. */
    readonly method: 'step' | 'linear';
    /** [input, value], inputs strictly rising, at least two. */
    readonly rows: readonly (readonly [number, number])[];
  };
  readonly asked?: boolean;
}

export type Limit = NumberLimit | FactLimit | TableLimit;

export type Draw =
  | {
      readonly from: number;
      readonly to: number;
      readonly step?: number;
      readonly show?: Show;
      readonly label?: string;
      readonly unit?: Unit;
    }
  | { readonly oneOf: readonly number[]; readonly show?: Show; readonly label?: string; readonly unit?: Unit }
  /** Events: id → words shown ('' = nothing to show). The drawn value is the id, a string. */
  | { readonly oneOf: { readonly [event: Id]: Text }; readonly label?: string };

interface AskBase {
  readonly id: Id;
  readonly ask: Text;
  /** Asked only when this holds. */
  readonly if?: FormulaText;
  readonly why?: Text;
  readonly source?: SourceRef;
  readonly critical?: boolean;
  readonly keeps?: readonly string[];
}

export interface NumberAsk extends AskBase {
  readonly number: FormulaText;
  readonly unit: Unit;
  readonly show?: Show;
  readonly accept?: Band;
  readonly slips?: readonly { readonly number: FormulaText; readonly note: Text }[];
}

export interface Rule {
  readonly id: Id;
  /** Without `if` it always holds; the first rule that holds counts. */
  readonly if?: FormulaText;
  /** Option ids, each of which is right. */
  readonly then: readonly Id[];
  readonly why?: Text;
  readonly slip?: Text;
  readonly source?: SourceRef;
  readonly critical?: boolean;
}

export interface ChooseAsk extends AskBase {
  readonly choose: {
    /** option id → words; options that no rule gives are distractors. */
    readonly options: { readonly [option: Id]: string };
    readonly rules: readonly Rule[];
  };
}

export type Ask = NumberAsk | ChooseAsk;

export interface Scenario {
  readonly id: Id;
  readonly title?: string;
  readonly situation: Text;
  readonly picture?: 'runway-wind';
  readonly draw: { readonly [name: string]: Draw };
  readonly let?: { readonly [name: string]: FormulaText };
  readonly require?: readonly FormulaText[];
  readonly asks: readonly Ask[];
  readonly when?: When;
  readonly why?: Text;
  readonly source?: SourceRef;
  readonly critical?: boolean;
  /** The author means speeds within 5 kt below V1 to be drawn with an event. */
  readonly nearV1?: boolean;
}

export interface Deck {
  readonly format: 1;
  /** `publisher/name`, both slugs, stable for ever. */
  readonly id: string;
  /** SemVer of content: major = an answer changed, minor = something added, patch = wording. */
  readonly version: string;
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  readonly nature: Nature;
  readonly about?: Text;
  readonly madeBy?: string;
  /** The second person who checked it, if there was one. */
  readonly checkedBy?: string;
  readonly effective?: IsoDate;
  readonly reviewBy?: IsoDate;
  readonly sources: readonly Source[];
  readonly variants?: readonly VariantAxis[];
  readonly crew?: readonly CrewMember[];
  readonly day?: readonly DayValue[];
  readonly conditions?: readonly Condition[];
  readonly procedures?: readonly Procedure[];
  readonly limits?: readonly Limit[];
  readonly scenarios?: readonly Scenario[];
}

/** Crew a deck has without saying so. */
export const DEFAULT_CREW: readonly CrewMember[] = [
  { id: 'PF', label: 'PF' },
  { id: 'PM', label: 'PM' },
  { id: 'both', label: 'Both' },
  { id: 'either', label: 'Either' },
];

/** Field-presence tests, so that nobody spells them twice. */
export const isUse = (n: Node): n is Use => 'use' in n;
export const isBlock = (n: Node): n is Block => 'steps' in n || 'lanes' in n;
export const isStep = (n: Node): n is Step => !isUse(n) && !isBlock(n);
export const isFact = (l: Limit): l is FactLimit => 'options' in l;
export const isTable = (l: Limit): l is TableLimit => 'table' in l;
export const isNumberLimit = (l: Limit): l is NumberLimit => 'sense' in l;
export const isNumberAsk = (a: Ask): a is NumberAsk => 'number' in a;
