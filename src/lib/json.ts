import type { Json } from './canonical-json.ts';

/** An object of JSON. */
export type Members = { readonly [key: string]: Json | undefined };

export const isMembers = (value: Json | undefined): value is Members =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const isList = (value: Json | undefined): value is readonly Json[] => Array.isArray(value);
