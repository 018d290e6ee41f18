/** A folder of a WebDAV server (RFC 4918) of the app's own origin. */
import type { Login } from '../model/second-device.ts';
import { type Folder, FolderProblem, MOST_BYTES } from './folder.ts';
import { type Element, elementOf, filesIn } from './multistatus.ts';

export interface Webdav extends Folder {
  /** Makes the folder itself (MKCOL); its parent must be there. */
  make(): Promise<void>;
}

/** ms without an answer after which the server counts as not there. */
const PATIENCE = 60_000;

/**
 * The folder's address.
 * @param typed an address or a path
 * @param app where the app is
 * @throws FolderProblem where it is not of the same server: the app speaks to no other
 */
export const folderAddress = (typed: string, app: string): URL => {
  let url: URL;
  try {
    url = new URL(typed.trim(), app);
  } catch {
    throw new FolderProblem('address', 'This is no address. Write it as a path of this server: /dav/recency/');
  }
  if (url.origin !== new URL(app).origin || !/^https?:$/.test(url.protocol))
    throw new FolderProblem(
      'address',
      `The folder must be on the server that this app comes from, ${new URL(app).host}: the app speaks to no other.`,
    );
  if (url.username !== '' || url.password !== '')
    throw new FolderProblem('address', 'Leave user and password out of the address; there are fields for them.');
  url.search = '';
  url.hash = '';
  if (!url.pathname.endsWith('/')) url.pathname += '/';
  return url;
};

const LIST =
  '<?xml version="1.0" encoding="utf-8"?><propfind xmlns="DAV:"><prop><getcontentlength/><getetag/><resourcetype/></prop></propfind>';

/** RFC 7617, with the text in UTF-8. */
const basic = ({ user, password }: Login): string => {
  let bytes = '';
  for (const byte of new TextEncoder().encode(`${user}:${password}`)) bytes += String.fromCharCode(byte);
  return `Basic ${btoa(bytes)}`;
};

const NO_DAV =
  'What answers at this address is no WebDAV folder. Look at the address; perhaps a page for signing in stands before it.';

/** What a status means that no verb expects. */
const problemOf = (status: number, login: Login | null): FolderProblem => {
  switch (status) {
    case 401:
      return login === null
        ? new FolderProblem('login', 'The folder asks for a user and a password. Fill them in.')
        : new FolderProblem('login', 'The server does not accept this user and password.');
    case 403:
      return new FolderProblem('forbidden', 'The server does not allow this in the folder. Whoever runs it can.');
    case 404:
    case 409:
      return new FolderProblem('missing', 'There is no such folder on the server.');
    case 423:
      return new FolderProblem('locked', 'The folder is locked by another program. Try again later.');
    case 413:
      return new FolderProblem('full', 'The server takes no file of this size. Whoever runs it can allow more.');
    case 507:
      return new FolderProblem('full', 'There is no room left in the folder. Everything is still on this device.');
    case 405:
    case 501:
      return new FolderProblem('no-dav', NO_DAV);
  }
  if (status >= 500) return new FolderProblem('server', `The server failed (${status}). Try again later.`);
  return new FolderProblem('no-dav', NO_DAV);
};

const tooLarge = (): FolderProblem => new FolderProblem('too-large', 'larger than any file of this app');

/** No more than may be read, even where the server says nothing of the size. */
const bytesOf = async (response: Response): Promise<Uint8Array<ArrayBuffer>> => {
  if (Number(response.headers.get('Content-Length') ?? 0) > MOST_BYTES) {
    await response.body?.cancel();
    throw tooLarge();
  }
  const reader = response.body?.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const next = await reader?.read();
    if (next === undefined || next.done) break;
    parts.push(next.value);
    size += next.value.length;
    if (size <= MOST_BYTES) continue;
    await reader?.cancel();
    throw tooLarge();
  }
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};

/**
 * @param address of `folderAddress`
 * @param login null: whatever the browser itself knows for this server
 * @param parse reads XML; another where there is no DOMParser
 */
export const webdav = (address: URL, login: Login | null, parse: (xml: string) => Element = elementOf): Webdav => {
  const ask = async <T>(
    name: string,
    init: { readonly method: string; readonly headers?: Record<string, string>; readonly body?: BodyInit },
    read: (response: Response) => Promise<T>,
  ): Promise<T> => {
    try {
      const response = await fetch(new URL(encodeURIComponent(name), address), {
        ...init,
        headers: { ...init.headers, ...(login !== null && { Authorization: basic(login) }) },
        // With a typed password the browser's own window for one must not come up.
        credentials: login === null ? 'same-origin' : 'omit',
        cache: 'no-store',
        redirect: 'manual',
        signal: AbortSignal.timeout(PATIENCE),
      });
      if (response.type === 'opaqueredirect' || (response.status >= 300 && response.status < 400))
        throw new FolderProblem('no-dav', NO_DAV);
      return await read(response);
    } catch (error) {
      if (error instanceof FolderProblem) throw error;
      throw new FolderProblem('network', 'The server does not answer. It is tried again later; nothing is lost.');
    }
  };
  const isPage = (response: Response) => /^text\/html\b/i.test(response.headers.get('Content-Type') ?? '');

  return {
    list: () =>
      ask(
        '',
        { method: 'PROPFIND', headers: { Depth: '1', 'Content-Type': 'application/xml; charset=utf-8' }, body: LIST },
        async (response) => {
          if (response.status !== 207) throw problemOf(response.status, login);
          if (isPage(response)) throw new FolderProblem('no-dav', NO_DAV);
          return filesIn(parse(await response.text()), address);
        },
      ),
    get: (name) =>
      ask(name, { method: 'GET' }, async (response) => {
        if (response.status === 404 || response.status === 410)
          throw new FolderProblem('gone', 'A file of the folder is not there any more.');
        if (response.status !== 200) throw problemOf(response.status, login);
        if (isPage(response)) throw new FolderProblem('no-dav', NO_DAV);
        return bytesOf(response);
      }),
    put: (name, bytes) =>
      ask(
        name,
        { method: 'PUT', headers: { 'If-None-Match': '*', 'Content-Type': 'application/octet-stream' }, body: bytes },
        async (response) => {
          await response.body?.cancel();
          if (response.status === 412) return 'there';
          if (response.status === 200 || response.status === 201 || response.status === 204) return 'put';
          throw problemOf(response.status, login);
        },
      ),
    make: () =>
      ask('', { method: 'MKCOL' }, async (response) => {
        await response.body?.cancel();
        // 405: it is there by now (RFC 4918, section 9.3.1).
        if (response.ok || response.status === 405) return;
        if (response.status === 409)
          throw new FolderProblem('missing', 'The folder above it is missing too. Make that one on the server first.');
        throw problemOf(response.status, login);
      }),
  };
};
