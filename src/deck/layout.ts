import type { Json } from '../lib/canonical-json.ts';
import { isMembers, type Members } from '../lib/json.ts';
import { DeckShape } from './schema.ts';

/** What is looked at of a schema of valibot. */
export interface Shape {
  readonly type: string;
  readonly entries?: Readonly<Record<string, Shape>>;
  readonly wrapped?: Shape;
  readonly item?: Shape;
  readonly value?: Shape;
  readonly getter?: (input: unknown) => Shape;
}

/**
 * The text of a deck file in the one layout in which Recency writes it: members in the order of the schema, two spaces,
 * a line break at the end. What it says, and so its content id, stays; members that no deck has stand last.
 */
export const layOut = (deck: Json): string => layOutBy(deck, DeckShape as unknown as Shape);

/** The same of any other file with a shape. */
export const layOutBy = (value: Json, shape: Shape): string => `${JSON.stringify(ordered(value, shape), null, 2)}\n`;

const ordered = (value: Json | undefined, shape: Shape | undefined): Json | undefined => {
  switch (shape?.type) {
    case 'exact_optional':
      return ordered(value, shape.wrapped);
    case 'lazy':
      return ordered(value, shape.getter?.(value));
    case 'array':
      return Array.isArray(value) ? value.map((one) => ordered(one as Json, shape.item) ?? null) : value;
    case 'record':
      return isMembers(value) ? members(value, Object.keys(value), () => shape.value) : value;
    case 'strict_object': {
      if (!isMembers(value)) return value;
      const known = Object.keys(shape.entries ?? {}).filter((key) => Object.hasOwn(value, key));
      const others = Object.keys(value).filter((key) => !known.includes(key));
      return members(value, [...known, ...others], (key) => shape.entries?.[key]);
    }
    default:
      return value;
  }
};

const members = (value: Members, keys: readonly string[], shapeOf: (key: string) => Shape | undefined): Json =>
  Object.fromEntries(keys.map((key) => [key, ordered(value[key], shapeOf(key))]));
