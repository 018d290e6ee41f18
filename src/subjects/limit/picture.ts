import type { ResolvedCase, ResolvedLimit } from '../resolved.ts';

/** Angles of the nose against the horizon, °, one or two, where the limit is drawn as a pitch. */
export const pitchOf = ({ limit }: ResolvedLimit, { value }: ResolvedCase): readonly number[] | undefined =>
  'picture' in limit && limit.picture === 'pitch' && typeof value !== 'string' ? value : undefined;
