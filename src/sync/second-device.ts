/** The folder in use on this device: where it is, what is known of it, when it is tried again. */
import { fromBase64url, toBase64url } from '../exchange/base64url.ts';
import type { Store } from '../model/ports.ts';
import type { Exchanged, FolderFault, FolderFound, Login, Place, SecondDevice } from '../model/second-device.ts';
import { DESCRIPTION, FolderProblem, readName } from './folder.ts';
import { exchangeOnce, type Notes } from './pass.ts';
import { describe, type Keys, openVault, readDescription, sealedVault, unlock } from './vault.ts';
import { folderAddress, type Webdav, webdav } from './webdav.ts';

/** In the device's records. */
const RECORD = 'second-device';

interface Kept {
  /** Of this use of a folder: a pass that outlives it writes nothing. */
  readonly begun: string;
  readonly address: string;
  /** `asks`: a user whose password is not kept. */
  readonly login: null | { readonly asks: string } | Login;
  /** `folder.json`, base64url: put again where the folder lost it; where it is another, nothing is exchanged. */
  readonly description: string;
  readonly keys: Keys | null;
  readonly notes: Notes;
  readonly last: { readonly at: number; readonly did: Exchanged } | null;
  readonly failed: {
    readonly why: string;
    readonly fault: FolderFault | null;
    readonly times: number;
    readonly again: number;
  } | null;
}

export interface Around {
  readonly store: Pick<Store, 'log' | 'decks' | 'device' | 'importAll'> & {
    readonly lock: Pick<Store['lock'], 'state'>;
  };
  /** Address of the app. */
  readonly app: string;
  readonly now: () => number;
  readonly folderAt?: (address: URL, login: Login | null) => Webdav;
}

/** ms after the first failure, doubled with each; at most a quarter of a day. */
const FIRST_WAIT = 60_000;
const LONGEST_WAIT = 6 * 3_600_000;

export const waitAfter = (failures: number): number => Math.min(FIRST_WAIT * 2 ** (failures - 1), LONGEST_WAIT);

export const secondDevice = ({ store, app, now, folderAt = webdav }: Around): SecondDevice => {
  /** Of this page alone, where it is not kept. */
  let password: string | null = null;
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = turn.then(work);
    turn = done.catch(() => undefined);
    return done;
  };
  const kept = async (): Promise<Kept | null> => ((await store.device.get(RECORD)) as Kept | null | undefined) ?? null;
  const stopped = () => new FolderProblem('stopped', 'The folder is no longer in use.');
  const change = async (begun: string, next: (before: Kept) => Kept): Promise<void> => {
    const before = await kept();
    if (before?.begun !== begun) throw stopped();
    await store.device.put(RECORD, next(before));
  };
  const mustWrite = () => {
    if (store.lock.state === 'other')
      throw new FolderProblem('other-tab', 'Recency is open in another tab, which does this.');
  };
  const at = ({ address, login }: Place) => folderAt(folderAddress(address, app), login);

  /** @returns what is said of the folder; null where nothing was exchanged there yet */
  const descriptionIn = async (folder: Webdav): Promise<Uint8Array<ArrayBuffer> | null> => {
    const listed = await folder.list();
    if (listed.some(({ name }) => name === DESCRIPTION)) return folder.get(DESCRIPTION);
    if (listed.some(({ name }) => readName(name) !== null))
      throw new FolderProblem(
        'folder',
        'The file folder.json is missing in this folder. Exchange once from the device that used it before: it puts the file there again.',
      );
    return null;
  };

  const loginOf = ({ login }: Kept): Login | null | 'asked' => {
    if (login === null || !('asks' in login)) return login;
    return password === null ? 'asked' : { user: login.asks, password };
  };

  const pass = async (record: Kept, login: Login | null, mayTakeIn: () => boolean): Promise<Exchanged> => {
    const { begun, keys } = record;
    const folder = at({ address: record.address, login });
    const description = fromBase64url(record.description) ?? new Uint8Array();
    const listed = await folder.list();
    // Before anything is read or written: is it still the folder that it was?
    if (!listed.some(({ name }) => name === DESCRIPTION)) await folder.put(DESCRIPTION, description);
    if (toBase64url(await folder.get(DESCRIPTION)) !== record.description)
      throw new FolderProblem(
        'folder',
        'The folder was begun anew by another device, or its folder.json was changed. Stop using it, then take it in use again.',
      );
    return exchangeOnce({
      folder,
      vault: keys === null ? openVault : sealedVault(keys),
      log: store.log,
      decks: store.decks,
      takeIn: (text) => {
        mustWrite();
        return store.importAll(text);
      },
      notes: record.notes,
      keep: (notes) => change(begun, (before) => ({ ...before, notes })),
      mayTakeIn,
    });
  };

  return {
    state: async () => {
      const record = await kept();
      if (record === null) return null;
      const { address, keys, login, last, failed } = record;
      return {
        address,
        hasPassphrase: keys !== null,
        asksPassword: login !== null && 'asks' in login && password === null ? login.asks : null,
        last,
        failed,
      };
    },
    look: async (place): Promise<FolderFound> => {
      const bytes = await descriptionIn(at(place));
      if (bytes === null) return 'empty';
      return readDescription(bytes).passphrase ? 'passphrase' : 'open';
    },
    make: async (place) => at(place).make(),
    begin: (place, passphrase, keep) =>
      inTurn(async () => {
        mustWrite();
        const folder = at(place);
        let bytes = await descriptionIn(folder);
        let keys: Keys | null = null;
        if (bytes === null) {
          const begun = await describe(passphrase);
          if ((await folder.put(DESCRIPTION, begun.bytes)) === 'put') ({ bytes, keys } = begun);
        }
        if (keys === null) {
          // Begun before, or by the other device at the same moment.
          bytes ??= await folder.get(DESCRIPTION);
          keys = await unlock(readDescription(bytes), passphrase);
        }
        const { login } = place;
        if (login !== null && !keep) ({ password } = login);
        await store.device.put(RECORD, {
          begun: crypto.randomUUID(),
          address: folderAddress(place.address, app).pathname,
          login: login === null || keep ? login : { asks: login.user },
          description: toBase64url(bytes as Uint8Array),
          keys,
          notes: {},
          last: null,
          failed: null,
        } satisfies Kept);
      }),
    tell: (told) => {
      password = told;
    },
    exchange: ({ byHand, mayTakeIn, wasCutOff }) =>
      inTurn(async () => {
        const record = await kept();
        if (record === null) return null;
        if (byHand) mustWrite();
        else if (store.lock.state === 'other' || now() < (record.failed?.again ?? 0)) return null;
        const login = loginOf(record);
        if (login === 'asked') {
          if (byHand) throw new FolderProblem('login', 'Fill in the password of the folder.');
          return null;
        }
        try {
          const did = await pass(record, login, mayTakeIn);
          await change(record.begun, (before) => ({ ...before, last: { at: now(), did }, failed: null }));
          return did;
        } catch (error) {
          const why = error instanceof Error ? error.message : String(error);
          const fault = error instanceof FolderProblem ? error.fault : null;
          const times = (record.failed?.times ?? 0) + 1;
          if (fault === 'login') password = null;
          if (fault !== 'stopped' && !(fault === 'network' && wasCutOff()))
            await change(record.begun, (before) => ({
              ...before,
              failed: { why, fault, times, again: now() + waitAfter(times) },
            })).catch(() => undefined);
          throw error;
        }
      }),
    stop: async () => {
      password = null;
      await store.device.put(RECORD, null);
    },
  };
};
