/** A folder that two devices of one learner share, as screens know it; src/sync does the work. */

/**
 * `login`: user or password are wrong or missing. `forbidden`: the server says no. `missing`: there is no such folder;
 * one can be made. `gone`: a file is not there any more. `locked`: somebody holds it. `full`: no room. `too-large`: a
 * file beyond what is read. `no-dav`: what answers is no WebDAV folder. `server`: it failed. `network`: no answer.
 * `list`: the list of files cannot be read. `address`: no address of this app's own server. `folder`: the file that
 * says how the folder is kept is damaged, missing or another. `passphrase`: a wrong one, or none where one is needed.
 * `other-tab`: another tab writes. `stopped`: given up meanwhile.
 */
export type FolderFault =
  | 'login'
  | 'forbidden'
  | 'missing'
  | 'gone'
  | 'locked'
  | 'full'
  | 'too-large'
  | 'no-dav'
  | 'server'
  | 'network'
  | 'list'
  | 'address'
  | 'folder'
  | 'passphrase'
  | 'other-tab'
  | 'stopped';

export interface Login {
  readonly user: string;
  readonly password: string;
}

/** Where the folder is. `login` null: whatever the browser itself knows for this server. */
export interface Place {
  /** As typed: an address, or a path of this server. */
  readonly address: string;
  readonly login: Login | null;
}

/** What one exchange brought and took. */
export interface Exchanged {
  readonly came: {
    readonly entries: number;
    readonly answers: number;
    readonly days: number;
    readonly decks: number;
    /** Entries that were claimed under one id by two devices: both are kept. */
    readonly clashes: number;
  };
  readonly went: { readonly entries: number; readonly answers: number; readonly decks: number };
  /** Files of the folder that were left aside, and why; for people. */
  readonly aside: readonly string[];
  /** Lines in good files that are no entries. */
  readonly badLines: number;
  /** There is more to come: exchange again. */
  readonly more: boolean;
}

export interface SecondDeviceState {
  /** Path of the folder, as kept. */
  readonly address: string;
  readonly hasPassphrase: boolean;
  /** The password was not to be kept, and this page was not told it yet. */
  readonly asksPassword: string | null;
  /** UTC ms, and what it brought and took; null: never yet. */
  readonly last: { readonly at: number; readonly did: Exchanged } | null;
  /** Why the last try failed, and when it is tried again by itself, UTC ms. */
  readonly failed: { readonly why: string; readonly fault: FolderFault | null; readonly again: number } | null;
}

/** What lies at an address. `empty`: nothing was exchanged there yet. */
export type FolderFound = 'empty' | 'open' | 'passphrase';

/** Each call fails with an Error whose message is for people, and a `fault` where it is the folder's. */
export interface SecondDevice {
  /** null: no folder is in use. */
  state(): Promise<SecondDeviceState | null>;
  look(place: Place): Promise<FolderFound>;
  make(place: Place): Promise<void>;
  /**
   * Uses a folder from now on. Nothing is merged or written before the passphrase is known to be right.
   * @param passphrase null: without one
   * @param keep the password on this device
   */
  begin(place: Place, passphrase: string | null, keep: boolean): Promise<void>;
  /** The password, for this page. */
  tell(password: string): void;
  /**
   * One pass.
   * @param how `mayTakeIn`: asked before anything is merged: not in the middle of a drill; `wasCutOff`: asked after no
   * answer came: was the app put away meanwhile? Such a failure says nothing of the server, and the next try waits for
   * nothing
   * @returns null where it is not time to try again, or the password is not known
   */
  exchange(how: {
    readonly byHand: boolean;
    readonly mayTakeIn: () => boolean;
    readonly wasCutOff: () => boolean;
  }): Promise<Exchanged | null>;
  /** The folder stays as it is. */
  stop(): Promise<void>;
}
