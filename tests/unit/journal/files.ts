/** The origin private file system in memory, as far as the journal uses it (https://fs.spec.whatwg.org/). */
class MemoryFile {
  bytes = new Uint8Array();
  /** Held by somebody else's access handle. */
  held = false;
  /** Bytes that still fit; a write takes what fits. */
  static room = Number.POSITIVE_INFINITY;

  async createSyncAccessHandle() {
    if (this.held) throw new DOMException('held', 'NoModificationAllowedError');
    this.held = true;
    return {
      getSize: () => this.bytes.length,
      read: (into: Uint8Array, { at }: { at: number }) => {
        const part = this.bytes.subarray(at, at + into.length);
        into.set(part);
        return part.length;
      },
      write: (from: Uint8Array, { at }: { at: number }) => {
        // Never more than seven bytes at once: a write may take only a part.
        const taken = from.subarray(0, Math.max(0, Math.min(7, MemoryFile.room)));
        MemoryFile.room -= taken.length;
        const next = new Uint8Array(Math.max(this.bytes.length, at + taken.length));
        next.set(this.bytes);
        next.set(taken, at);
        this.bytes = next;
        return taken.length;
      },
      truncate: (size: number) => {
        this.bytes = this.bytes.slice(0, size);
      },
      flush: () => undefined,
      close: () => {
        this.held = false;
      },
    };
  }
  async getFile() {
    if (this.held) throw new DOMException('held', 'NoModificationAllowedError');
    return new Blob([this.bytes]);
  }
}

/** A folder of files, kept over restarts of the worker. */
export interface Disk {
  readonly files: Map<string, MemoryFile>;
  text(name: string): string;
  put(name: string, text: string): void;
  /** Another page holds this file. */
  hold(name: string, held: boolean): void;
  /** As when a page is gone: the browser closes what it had open. */
  releaseAll(): void;
  /** Bytes that still fit. */
  room(bytes: number): void;
  readonly storage: { getDirectory(): Promise<unknown> };
}

export const diskOf = (): Disk => {
  const files = new Map<string, MemoryFile>();
  MemoryFile.room = Number.POSITIVE_INFINITY;
  const fileAt = (name: string): MemoryFile => {
    const file = files.get(name) ?? new MemoryFile();
    files.set(name, file);
    return file;
  };
  const folder = {
    keys: async function* () {
      yield* [...files.keys()];
    },
    getFileHandle: async (name: string, { create = false } = {}) => {
      if (!create && !files.has(name)) throw new DOMException('none', 'NotFoundError');
      return fileAt(name);
    },
    removeEntry: async (name: string) => {
      if (files.get(name)?.held === true) throw new DOMException('held', 'NoModificationAllowedError');
      files.delete(name);
    },
  };
  return {
    files,
    text: (name) => new TextDecoder().decode(fileAt(name).bytes),
    put: (name, text) => {
      fileAt(name).bytes = new TextEncoder().encode(text);
    },
    hold: (name, held) => {
      fileAt(name).held = held;
    },
    releaseAll: () => {
      for (const file of files.values()) file.held = false;
    },
    room: (bytes) => {
      MemoryFile.room = bytes;
    },
    storage: { getDirectory: async () => ({ getDirectoryHandle: async () => folder }) },
  };
};
