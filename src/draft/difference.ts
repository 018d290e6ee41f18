import type { Json } from '../lib/canonical-json.ts';
import { isMembers, type Members } from '../lib/json.ts';
import { apply, type Change, insert, put, valueAt } from './change.ts';

/**
 * Changes that lead from a draft to another: only what differs. Elements of a list that are the same object count as
 * the same, so what is moved stays the very thing it was.
 */
export const changesTo = (doc: Json, to: Json): Change[] => {
  const out: Change[] = [];
  let now = doc;
  const take = (change: Change): void => {
    out.push(change);
    now = apply(now, [change]);
  };
  const differ = (path: string, want: Json): void => {
    const have = valueAt(now, path);
    if (have === want) return;
    if (Array.isArray(have) && Array.isArray(want)) lists(path, have, want);
    else if (isMembers(have) && isMembers(want) && sameMembersFirst(have, want)) {
      for (const key of Object.keys(have)) if (!Object.hasOwn(want, key)) take(put(now, at(path, key), undefined));
      for (const [key, one] of Object.entries(want)) {
        if (Object.hasOwn(have, key)) differ(at(path, key), one as Json);
        else take(put(now, at(path, key), one));
      }
    } else take(put(now, path, want));
  };
  const lists = (path: string, have: readonly Json[], want: readonly Json[]): void => {
    let start = 0;
    while (start < have.length && start < want.length && have[start] === want[start]) start++;
    let end = 0;
    const least = Math.min(have.length, want.length) - start;
    while (end < least && have[have.length - 1 - end] === want[want.length - 1 - end]) end++;
    const [gone, come] = [have.slice(start, have.length - end), want.slice(start, want.length - end)];
    const [only] = gone;
    const [other] = come;
    if (gone.length === 1 && come.length === 1 && isSame(only, other) && !holds(only, other)) {
      differ(`${path}/${start}`, other as Json);
      return;
    }
    for (let i = gone.length - 1; i >= 0; i--) take(put(now, `${path}/${start + i}`, undefined));
    come.forEach((one, i) => {
      take(insert(path, start + i, one));
    });
  };
  differ('', to);
  return out;
};

const at = (path: string, key: string): string => `${path}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`;

/** Changed inside, not another thing. */
const isSame = (a: Json | undefined, b: Json | undefined): boolean => {
  if (Array.isArray(a) || Array.isArray(b)) return Array.isArray(a) && Array.isArray(b);
  return (
    isMembers(a) && isMembers(b) && a.id === b.id && 'lanes' in a === 'lanes' in b && 'steps' in a === 'steps' in b
  );
};

/** Does it stand somewhere within? Then it was taken out, and stays the very thing it was. */
const holds = (outer: Json | undefined, inner: Json | undefined): boolean =>
  typeof outer === 'object' &&
  outer !== null &&
  Object.values(outer).some((one) => one === inner || holds(one as Json, inner));

/** Can the one be made of the other by taking members out and putting members behind? */
const sameMembersFirst = (have: Members, want: Members): boolean => {
  const kept = Object.keys(have).filter((key) => Object.hasOwn(want, key));
  return Object.keys(want)
    .slice(0, kept.length)
    .every((key, i) => key === kept[i]);
};
