import type { DraftCopies, StoredDraft } from '../model/ports.ts';

const FOLDER = 'drafts';
const NAME = /^[0-9a-z]+\.json$/;

const isDraft = (value: unknown): value is StoredDraft =>
  typeof value === 'object' && value !== null && 'id' in value && 'seq' in value && 'value' in value;

/**
 * A copy of each draft in the origin private file system, outside the database: what is written goes into a new file
 * that takes the place of the old one when it is whole (WHATWG File System, `createWritable`).
 * @returns null where this browser has no such files for a page
 */
export const openDraftCopies = async (): Promise<DraftCopies | null> => {
  try {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle(FOLDER, { create: true });
    if (!('createWritable' in FileSystemFileHandle.prototype)) return null;
    return {
      put: async (draft) => {
        const file = await folder.getFileHandle(`${draft.id}.json`, { create: true });
        const writing = await file.createWritable();
        await writing.write(JSON.stringify(draft));
        await writing.close();
      },
      remove: async (id) => {
        try {
          await folder.removeEntry(`${id}.json`);
        } catch (error) {
          // There was none yet.
          if (!(error instanceof DOMException && error.name === 'NotFoundError')) throw error;
        }
      },
      list: async () => {
        const found: StoredDraft[] = [];
        for await (const [name, handle] of folder as unknown as AsyncIterable<[string, FileSystemHandle]>) {
          if (!NAME.test(name) || handle.kind !== 'file') continue;
          try {
            const value: unknown = JSON.parse(await (await (handle as FileSystemFileHandle).getFile()).text());
            if (isDraft(value)) found.push(value);
          } catch {
            // Damaged: the others are read all the same.
          }
        }
        return found;
      },
    };
  } catch {
    return null;
  }
};
