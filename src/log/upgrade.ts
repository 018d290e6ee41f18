type Fields = Readonly<Record<string, unknown>>;

/** The n-th makes an entry of version n + 1 of one of version n. Empty: format 1 is the first. A fixture per version in tests. */
const UPGRADES: readonly ((entry: Fields) => Fields)[] = [];

/** Lines are never rewritten: an old one is made new each time it is read. Newer ones stay as they are. */
export const upgrade = (entry: Fields): Fields => {
  let now = entry;
  const from = Number(entry.v);
  if (!(from >= 1)) return entry;
  for (const step of UPGRADES.slice(from - 1)) now = step(now);
  return now;
};
