import type { Outcome } from '../memory/types.ts';
import type { AnswerEntry, ReadEntry, VoidEntry } from '../model/entry.ts';
import type { Given } from '../model/form.ts';
import type { Sure } from '../model/item.ts';
import type { Draft, Session } from './types.ts';

type Unsaid = 'v' | 'id' | 'app' | 'at' | 'off';
/** What a drill adds to the log; when and by whom is said by others. */
export type DrillEntry = Omit<AnswerEntry, Unsaid> | Omit<ReadEntry, Unsaid> | Omit<VoidEntry, Unsaid>;

export interface Start {
  readonly id: string;
  readonly course: string;
  /** UTC ms. */
  readonly started: number;
  /** s that the drill may take. */
  readonly seconds: number;
  /** 32 bits. */
  readonly seed: number;
}

export type DrillEvent =
  /** What is shown has been read. */
  | { readonly k: 'read' }
  | { readonly k: 'draft'; readonly draft: Draft }
  /** Visible time went by, s. */
  | { readonly k: 'time'; readonly seconds: number }
  | {
      readonly k: 'answer';
      /** null: Don't know. */
      readonly given: Given | null;
      readonly sure: Sure;
      /** Ids of the steps named as not sure; empty: all. */
      readonly unsure: readonly string[];
      /** Visible time from question to answer, ms. */
      readonly ms: number;
      readonly help?: string;
    }
  /** The answer is in the log, and this is what it did. */
  | { readonly k: 'stored'; readonly entry: string; readonly outcome: Outcome | null }
  /** The answer never reached the log: it is asked again as it stood. */
  | { readonly k: 'unstored' }
  | { readonly k: 'next' }
  | { readonly k: 'void'; readonly why: 'mis-tap' | 'query'; readonly note?: string }
  | { readonly k: 'enough' }
  /** Taken up again: decks may have changed meanwhile. */
  | { readonly k: 'resume' };

export interface Reduced {
  readonly session: Session;
  /** To be written to the log. */
  readonly entry?: DrillEntry;
  /** Something that the learner should be told. */
  readonly said?: 'gone';
}
