/** The answer to PROPFIND (RFC 4918, section 14.16) as a list of files. */
import { FolderProblem, type Listed } from './folder.ts';

/** An XML element: as much as is looked at. */
export interface Element {
  /** Namespace. */
  readonly ns: string;
  readonly local: string;
  /** Text directly in it. */
  readonly text: string;
  readonly children: readonly Element[];
}

const DAV = 'DAV:';

export const damaged = (): FolderProblem =>
  new FolderProblem('list', 'The list of files came damaged or cut off. Nothing was changed; try again later.');

const fromDom = (element: globalThis.Element): Element => ({
  ns: element.namespaceURI ?? '',
  local: element.localName,
  text: [...element.childNodes]
    .map((node) => (node.nodeType === 3 || node.nodeType === 4 ? node.nodeValue : ''))
    .join(''),
  children: [...element.children].map(fromDom),
});

/** By the browser's own parser; src/sync/xml.ts reads the same where there is none. @throws FolderProblem where it is no whole XML */
export const elementOf = (xml: string): Element => {
  const document = new DOMParser().parseFromString(xml, 'application/xml');
  if (document.getElementsByTagName('parsererror').length > 0) throw damaged();
  return fromDom(document.documentElement);
};

const named = (of: Element, local: string): readonly Element[] =>
  of.children.filter((child) => child.ns === DAV && child.local === local);

/**
 * Files directly in the folder.
 * @param folder its address, absolute, ending in a slash
 * @throws FolderProblem where it is no multistatus
 */
export const filesIn = (root: Element, folder: URL): readonly Listed[] => {
  if (root.ns !== DAV || root.local !== 'multistatus') throw damaged();
  return named(root, 'response').flatMap((response) => {
    const name = nameIn(named(response, 'href')[0]?.text.trim() ?? '', folder);
    if (name === null) return [];
    const found = named(response, 'propstat')
      .filter((one) => /^HTTP\/\S+ 2\d\d\b/.test(named(one, 'status')[0]?.text.trim() ?? ''))
      .flatMap((one) => named(one, 'prop'))
      .flatMap(({ children }) => children.filter(({ ns }) => ns === DAV));
    const text = (local: string) => found.find((one) => one.local === local)?.text.trim();
    const kind = found.find(({ local }) => local === 'resourcetype');
    if (kind !== undefined && named(kind, 'collection').length > 0) return [];
    const size = text('getcontentlength');
    const etag = text('getetag');
    return [{ name, size: size !== undefined && /^\d+$/.test(size) ? Number(size) : null, ...(etag && { etag }) }];
  });
};

/** @param href absolute or a path, percent-encoded. @returns null for what is not directly in the folder */
const nameIn = (href: string, folder: URL): string | null => {
  try {
    const url = new URL(href, folder);
    // One server may write what another left plain: compared as they are read.
    const [path, base] = [decodeURIComponent(url.pathname), decodeURIComponent(folder.pathname)];
    if (url.origin !== folder.origin || !path.startsWith(base)) return null;
    const name = path.slice(base.length);
    return name === '' || name.includes('/') ? null : name;
  } catch {
    return null;
  }
};
