import type { Id } from './deck.ts';

/** `deck#thing.facet[.case]~stamp`, see DEVELOPERS.md: "Item keys". */
export type ItemKey = string;

/** place, cue, crew, words: of a step. value: of a limit. rule, number: of a scenario's ask. */
export type Facet = 'place' | 'cue' | 'crew' | 'words' | 'value' | 'rule' | 'number';

/** The smallest thing with its own memory. */
export interface Item {
  readonly key: ItemKey;
  readonly deck: string;
  /** Step, limit or scenario id. */
  readonly thing: Id;
  readonly facet: Facet;
  /** Procedure (the first that holds the step), limit or scenario: what is read before it is asked. */
  readonly group: Id;
  readonly groupKind: 'procedure' | 'limit' | 'scenario';
  readonly critical: boolean;
  /** What it is, for Debrief and lists, without the answer: "Lowest height to engage the autopilot (Fellwater)". */
  readonly label: string;
  /** Place in the deck, rising: new items come in this order. */
  readonly rank: number;
  /** Ids of the views (variant combinations) that hold it. */
  readonly views: readonly string[];
}

export interface KeyParts {
  readonly deck: string;
  readonly thing: Id;
  /** place | cue | crew | words | value.<case> | <ask>.<rule> | <ask>.number */
  readonly facet: string;
  readonly stamp: string;
}

export const itemKey = (deck: string, thing: Id, facet: string, stamp: string): ItemKey =>
  `${deck}#${thing}.${facet}~${stamp}`;

/** @returns undefined where the text is no item key */
export function parseItemKey(key: ItemKey): KeyParts | undefined {
  const m = /^([^#~]+)#([^.#~]+)\.([^#~]+)~([0-9a-z]+)$/.exec(key);
  return m ? { deck: m[1] as string, thing: m[2] as string, facet: m[3] as string, stamp: m[4] as string } : undefined;
}

/** The same thing and facet, whatever its answer. */
export const withoutStamp = (key: ItemKey): string => key.slice(0, key.indexOf('~'));

/** A fact about an item in one answer. told: the answer was shown before it was given. moved: right, but only in some equally small set of moves, or behind the first step of a block moved whole. */
export type Mark = 'right' | 'wrong' | 'told' | 'moved';
export type Marks = Readonly<Record<ItemKey, Mark>>;

/** Derived from marks and history, never stored. */
export type Verdict = 'missed' | 'unsure' | 'sound' | 'fluent';

/** true Sure, false Not sure, null Don't know. */
export type Sure = boolean | null;
