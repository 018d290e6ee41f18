/** Scenarios of a deck: situations with drawn values, whose answers are computed. */
import type { Band, Cited, FormulaText, Id, Show, Text, Unit, When } from './deck-basics.ts';

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

interface AskBase extends Cited {
  readonly id: Id;
  readonly ask: Text;
  /** Asked only when this holds. */
  readonly if?: FormulaText;
  readonly why?: Text;
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

export interface Rule extends Cited {
  readonly id: Id;
  /** Without `if` it always holds; the first rule that holds counts. */
  readonly if?: FormulaText;
  /** Option ids, each of which is right. */
  readonly then: readonly Id[];
  readonly why?: Text;
  readonly slip?: Text;
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

export interface Scenario extends Cited {
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
  readonly critical?: boolean;
  /** The author means speeds within 5 kt below V1 to be drawn with an event. */
  readonly nearV1?: boolean;
}

export const isNumberAsk = (a: Ask): a is NumberAsk => 'number' in a;
