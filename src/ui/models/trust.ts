/** Who signed a deck, and whether that fits what is known on this device. */
import type { Store, StoredDeck } from '../../model/ports.ts';
import type { Role, SignatureFound } from '../../model/signing.ts';
import type { OwnKey, Signing } from '../device.ts';
import type { Learner } from './learner.ts';

/** A signer of a deck that was once taken in here. */
export interface KnownSigner {
  /** As `SignatureFound` names it. */
  readonly key: string;
  /** As first signed with. */
  readonly name: string;
  readonly letters: string;
  /** UTC ms. */
  readonly since: number;
}

/** The key of this device with the name that it last signed with. */
export interface KeptKey extends OwnKey {
  readonly name: string;
}

/**
 * `own`: signed on this device. `known`: met before. `new`: never met. `namesake`: never met, though another key of that
 * name was. `unchecked`: this browser cannot tell whether the signature holds.
 */
export type Met = 'own' | 'known' | 'new' | 'namesake' | 'unchecked';

export interface SeenSignature extends SignatureFound {
  readonly met: Met;
}

export interface Trust {
  readonly signatures: readonly SeenSignature[];
  /** Signers of what is here, where the deck that comes is signed by none of them. */
  readonly changed: readonly SignatureFound[];
  /** Signed by others in a role in which it is no longer signed. */
  readonly missing: readonly SignatureFound[];
}

export const NO_TRUST: Trust = { signatures: [], changed: [], missing: [] };

/** Words for a person: why a deck is not taken in. */
export class TrustProblem extends Error {
  override readonly name = 'TrustProblem';
  /** Where in the deck. */
  readonly where: string;
  /** The key of this device signed what is here: whoever reads it can mend it. */
  readonly own: boolean;
  constructor(message: string, where: string, own = false) {
    super(message);
    this.where = where;
    this.own = own;
  }
}

const SIGNERS = 'signers';
const OWN = 'signing-key';

export const knownSigners = async (store: Store): Promise<readonly KnownSigner[]> => {
  const kept = await store.device.get(SIGNERS);
  return Array.isArray(kept) ? (kept as KnownSigner[]) : [];
};

export const forgetSigner = async (store: Store, key: string): Promise<readonly KnownSigner[]> => {
  const left = (await knownSigners(store)).filter((one) => one.key !== key);
  await store.device.put(SIGNERS, left);
  return left;
};

/** From now on these are known. @param at UTC ms */
export const rememberSigners = async (store: Store, found: readonly SeenSignature[], at: number): Promise<void> => {
  const known = await knownSigners(store);
  const fresh = new Map<string, SeenSignature>();
  // Of one key under two names the first, which is the author's, is kept.
  for (const one of found)
    if ((one.met === 'new' || one.met === 'namesake') && !fresh.has(one.key)) fresh.set(one.key, one);
  for (const { key } of known) fresh.delete(key);
  if (fresh.size === 0) return;
  await store.device.put(SIGNERS, [
    ...known,
    ...[...fresh.values()].map(({ key, name, fingerprint: { letters } }) => ({ key, name, letters, since: at })),
  ]);
};

export const keptKey = async (store: Store): Promise<KeptKey | null> =>
  ((await store.device.get(OWN)) as KeptKey | undefined) ?? null;

export const keepKey = (store: Store, key: KeptKey): Promise<void> => store.device.put(OWN, key);

const isSigned = (text: string): boolean => {
  try {
    const { signatures } = JSON.parse(text) as { readonly signatures?: unknown };
    return signatures !== undefined && !(Array.isArray(signatures) && signatures.length === 0);
  } catch {
    return false;
  }
};

const notLoaded = (): never => {
  throw new Error('The part of the app that checks signatures could not be loaded. Are you online?');
};

const signingOf = (learner: Learner): Promise<Signing> => learner.device.signing().catch(notLoaded);

/**
 * Of a deck that is here; none where they do not hold, so that a broken one stops nobody from mending it.
 * @throws Error where what checks them cannot be loaded
 */
export const signersOf = async (learner: Learner, stored: StoredDeck): Promise<readonly SeenSignature[]> => {
  if (!isSigned(stored.text)) return [];
  const { verify } = await signingOf(learner);
  const found = await verify(stored.text).catch(() => []);
  return met(learner.store, once(found.filter(({ valid }) => valid !== false)));
};

/** Each signer once in each role, as signed last. */
const once = (found: readonly SignatureFound[]): readonly SignatureFound[] => [
  ...new Map(found.map((one) => [`${one.key} ${one.role}`, one])).values(),
];

const met = async (store: Store, found: readonly SignatureFound[]): Promise<readonly SeenSignature[]> => {
  const [known, own] = await Promise.all([knownSigners(store), keptKey(store)]);
  const keys = new Map(known.map((one) => [one.key, one]));
  const first = found.map((one): SeenSignature => {
    if (one.valid !== true) return { ...one, met: 'unchecked' };
    if (one.key === own?.key) return { ...one, met: 'own' };
    return { ...one, met: keys.has(one.key) ? 'known' : 'new' };
  });
  if (first.every((one) => one.met !== 'new')) return first;
  const { lookOf } = await import('./alike.ts').catch(notLoaded);
  const looks = new Set([...known, ...(own === null ? [] : [own])].map(({ name }) => lookOf(name)));
  return first.map((one) => (one.met === 'new' && looks.has(lookOf(one.name)) ? { ...one, met: 'namesake' } : one));
};

const inRole = (found: readonly SignatureFound[], role: Role) => found.filter((one) => one.role === role);

/** Whose deck it is: its author's, where one signed. */
const owners = (found: readonly SignatureFound[]): readonly SignatureFound[] => {
  const authors = inRole(found, 'author');
  return authors.length > 0 ? authors : found;
};

/**
 * Of the last revision that somebody signed: an unsigned one after it takes nothing from that.
 * @param here revisions of one deck, the one practised last
 */
export const lastSigners = async (learner: Learner, here: readonly StoredDeck[]): Promise<readonly SeenSignature[]> => {
  for (const one of [...here].reverse()) {
    const found = await signersOf(learner, one);
    if (found.length > 0) return found;
  }
  return [];
};

/**
 * Holds a deck on its way in to what is known here. A signature that this browser cannot check counts as one: who could
 * not tell a false one does not let an unsigned deck take its place either.
 * @param contentId of the text: signatures of the same content that are here stay with it
 * @param here revisions of the same deck on this device, the one practised last
 * @throws TrustProblem where it must not be taken in
 */
export const judge = async (
  learner: Learner,
  text: string,
  contentId: string,
  here: readonly StoredDeck[],
): Promise<Trust> => {
  const old = await lastSigners(learner, here);
  const twin = here.find((one) => one.contentId === contentId);
  const kept = twin === undefined ? [] : await signersOf(learner, twin);
  const seen = await met(learner.store, once([...kept, ...(isSigned(text) ? await verified(learner, text) : [])]));
  if (old.length > 0 && seen.length === 0) {
    const own = old.some((one) => one.met === 'own');
    throw new TrustProblem(
      `The deck on this device is signed by ${listed(old.map(({ name }) => name))}; this one is not signed, so nothing proves that it comes from the same hand. ${
        own
          ? 'Your own key signed the one that is here: if you wrote this one, sign it in the Workshop, under “Hand over”.'
          : 'Ask whoever gave it to you for a signed file.'
      }`,
      'the deck',
      own,
    );
  }
  if (old.some(({ valid }) => valid === true) && seen.every(({ valid }) => valid !== true))
    throw new TrustProblem(
      `The deck on this device is signed by ${listed(old.map(({ name }) => name))}; this browser cannot check the signature of the new one. Update the browser, then open the deck again.`,
      '/signatures',
    );
  const keys = (list: readonly SignatureFound[]) => new Set(list.map(({ key }) => key));
  const [mine, theirs] = [keys(owners(seen)), owners(old)];
  const isSame = theirs.length === 0 || theirs.some(({ key }) => mine.has(key));
  return {
    signatures: seen,
    changed: isSame ? [] : theirs,
    missing: isSame ? inRole(old, 'checker').filter(({ key }) => !keys(inRole(seen, 'checker')).has(key)) : [],
  };
};

const verified = async (learner: Learner, text: string): Promise<readonly SignatureFound[]> => {
  const signing = await signingOf(learner);
  let found: readonly SignatureFound[];
  try {
    found = await signing.verify(text);
  } catch (error) {
    throw new TrustProblem(error instanceof Error ? error.message : String(error), '/signatures');
  }
  const bad = found.findIndex(({ valid }) => valid === false);
  if (bad >= 0)
    throw new TrustProblem(
      `The signature of ${found[bad]?.name} does not fit this deck: the file was changed after it was signed, or the signature is another's. Ask for the file anew.`,
      `/signatures/${bad}`,
    );
  return found;
};

/** "A", "A and B", "A, B and C". */
export const listed = (names: readonly string[]): string => {
  const all = [...new Set(names)];
  return all.length < 2 ? (all[0] ?? '') : `${all.slice(0, -1).join(', ')} and ${all.at(-1)}`;
};
