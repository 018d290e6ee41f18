import type { Id } from '../model/deck.ts';
import type { FormId, Given, Marked, Offer, Shown } from '../model/form.ts';
import type { ItemKey, Sure, Verdict } from '../model/item.ts';

/** Reading before the first question about something. */
export interface Reading {
  readonly kind: 'read';
  /** Deck ref and view. */
  readonly deck: string;
  readonly variant: string;
  readonly group: Id;
  readonly groupKind: 'procedure' | 'limit' | 'scenario';
  /** Of a procedure: the situation whose steps are read. */
  readonly situation?: string;
  /** Step, limit or scenario ids to be read now: at most five. */
  readonly things: readonly Id[];
}

export interface Asking {
  readonly kind: 'ask';
  readonly deck: string;
  readonly offer: Offer;
  readonly shown: Shown;
  /** What was entered so far: taps of a run, text of a field; JSON. */
  readonly draft: Draft;
  /** Visible time so far, ms. */
  readonly elapsed: number;
  /** What was missed today comes back in an easier form: right is no proof of memory. */
  readonly eased?: true;
}

/** Shared by all forms, so that a drill's state can be stored at each tap. */
export interface Draft {
  /** run: chip ids in order. */
  readonly order?: readonly string[];
  /** number: texts of the fields. */
  readonly typed?: readonly string[];
  /** choice: option id. */
  readonly choice?: Id;
  /** Words as typed. */
  readonly said?: string;
  /** Seat named beside words. */
  readonly by?: Id;
  /** Rows dealt so far: row id → seat id. */
  readonly deal?: Readonly<Record<string, Id>>;
  /** Lines spoken up at. */
  readonly lines?: readonly string[];
}

export interface Told {
  readonly kind: 'verdict';
  readonly deck: string;
  readonly offer: Offer;
  readonly shown: Shown;
  readonly given: Given | null;
  readonly sure: Sure;
  /** Steps named as not sure. */
  readonly unsure: readonly Id[];
  readonly marked: Marked;
  readonly verdicts: Readonly<Record<ItemKey, Verdict>>;
  /** Id of the log entry once written. */
  readonly entry: string | null;
  readonly voided?: 'mis-tap' | 'query';
  readonly eased?: true;
}

export interface Finished {
  readonly kind: 'done';
  /** time: minutes used. empty: nothing more to ask today. enough: the learner's wish. */
  readonly why: 'time' | 'empty' | 'enough';
}

export type Now = Reading | Asking | Told | Finished;

/** One answered question, for the Debrief. */
export interface Answered {
  readonly entry: string;
  readonly deck: string;
  readonly form: FormId;
  readonly about: Offer['about'];
  readonly sure: Sure;
  readonly ms: number;
  /** Chance to have been right by guessing, 0..1. */
  readonly g: number;
  /** Of its offer, 0..1; absent in drills of an older version. */
  readonly ease?: number;
  /** Items that it asked, whatever became of the answer. */
  readonly items: readonly ItemKey[];
  readonly verdicts: Readonly<Record<ItemKey, Verdict>>;
  readonly predicted: Readonly<Record<ItemKey, number>>;
  readonly voided?: 'mis-tap' | 'query';
}

/** A whole drill; JSON; stored at each tap, so that it goes on exactly there. */
export interface Session {
  readonly v: 1;
  readonly id: string;
  readonly course: string;
  readonly started: number;
  /** Study day on which it began. */
  readonly day: number;
  /** s that the drill may take. */
  readonly seconds: number;
  /** s used: answers and verdicts read, hidden time taken out. */
  readonly used: number;
  readonly seed: number;
  /** Questions put so far. */
  readonly count: number;
  readonly now: Now;
  readonly answered: readonly Answered[];
  /** Items to come back: from which question number on, and the name of the question they were missed in. */
  readonly back: readonly { readonly key: ItemKey; readonly after: number; readonly not?: string }[];
  /** New items read in this drill. */
  readonly met: readonly ItemKey[];
}
