import type { FolderFault } from '../model/second-device.ts';

export interface Listed {
  readonly name: string;
  /** Bytes; null where the folder does not say. */
  readonly size: number | null;
  readonly etag?: string;
}

/** A place for files that are written once and never changed. Each verb fails with a FolderProblem. */
export interface Folder {
  /** Files, no folders. */
  list(): Promise<readonly Listed[]>;
  get(name: string): Promise<Uint8Array<ArrayBuffer>>;
  /** Never over a file that is there. */
  put(name: string, bytes: Uint8Array<ArrayBuffer>): Promise<'put' | 'there'>;
}

/** The message is for people: what is the matter and what to do. */
export class FolderProblem extends Error {
  override readonly name = 'FolderProblem';
  readonly fault: FolderFault;
  constructor(fault: FolderFault, message: string) {
    super(message);
    this.fault = fault;
  }
}

/** Bytes of a file beyond which it is not read: a segment has some hundred kB, a deck two million at most. */
export const MOST_BYTES = 8_000_000;

/** The file that says how the folder is kept. */
export const DESCRIPTION = 'folder.json';

export type Kind = 'log' | 'deck';

/** `<64 hex>.log`; `<64 hex>-1.log` where the first was written in part only and cannot be written over. */
const NAME = /^([0-9a-f]{64})(?:-(\d{1,2}))?\.(log|deck)$/;

export interface Named {
  readonly hash: string;
  readonly kind: Kind;
}

/** @returns null where it is no name of ours */
export const readName = (name: string): Named | null => {
  const m = NAME.exec(name);
  return m === null ? null : { hash: m[1] as string, kind: m[3] as Kind };
};

/** @param attempt 0 for the first */
export const nameOf = ({ hash, kind }: Named, attempt = 0): string =>
  `${hash}${attempt === 0 ? '' : `-${attempt}`}.${kind}`;
