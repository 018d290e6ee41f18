/** As much of XML as a list of files needs, where there is no DOMParser: the command line, tests. */
import { damaged, type Element } from './multistatus.ts';

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** @throws FolderProblem for an entity that XML itself does not have */
const plainText = (text: string): string =>
  text.replace(/&([^;&\s]*);?/g, (all, name: string) => {
    const number = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name);
    const code = number === null ? Number.NaN : Number.parseInt(number[1] ?? number[2] ?? '', number[1] ? 16 : 10);
    const found = code <= 0x10ffff ? String.fromCodePoint(code) : ENTITIES[name];
    if (found === undefined || !all.endsWith(';')) throw damaged();
    return found;
  });

const TOKEN =
  /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<!\[CDATA\[([\s\S]*?)\]\]>|<(\/?)([^\s<>/!?=]+)((?:\s[^<>]*?)?)(\/?)>|([^<]+)/y;
const ATTRIBUTE = /\s+([^\s=<>"']+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/y;
/** Levels of elements; a multistatus has six. */
const MOST_LEVELS = 32;

interface Open {
  readonly name: string;
  readonly ns: string;
  readonly local: string;
  readonly prefixes: ReadonlyMap<string, string>;
  text: string;
  readonly children: Element[];
}

/** Namespaces that a tag declares, added to those around it. */
const prefixesIn = (attributes: string, around: ReadonlyMap<string, string>): ReadonlyMap<string, string> => {
  const own = new Map(around);
  const trimmed = attributes.trimEnd();
  ATTRIBUTE.lastIndex = 0;
  let end = 0;
  for (let m = ATTRIBUTE.exec(trimmed); m !== null; m = ATTRIBUTE.exec(trimmed)) {
    end = ATTRIBUTE.lastIndex;
    const [, name = '', double, single] = m;
    const value = plainText(double ?? single ?? '');
    if (name === 'xmlns') own.set('', value);
    else if (name.startsWith('xmlns:')) own.set(name.slice(6), value);
  }
  if (end !== trimmed.length) throw damaged();
  return own;
};

/**
 * Elements, text and namespaces (Namespaces in XML 1.0); no document types.
 * @throws FolderProblem where it is no whole XML
 */
export const parseXml = (xml: string): Element => {
  const text = xml.replace(/^\ufeff/, '');
  const open: Open[] = [];
  let root: Element | null = null;
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    const m = TOKEN.exec(text);
    if (m === null) throw damaged();
    const [, cdata, closes, name, attributes = '', empty, words] = m;
    const inside = open.at(-1);
    if (words !== undefined || cdata !== undefined) {
      if (inside !== undefined) inside.text += cdata ?? plainText(words ?? '');
      else if (cdata !== undefined || words?.trim() !== '') throw damaged();
      continue;
    }
    // A comment or an instruction.
    if (name === undefined) continue;
    const finish = ({ ns, local, text: own, children }: Open) => {
      const element = { ns, local, text: own, children };
      const parent = open.at(-1);
      if (parent !== undefined) parent.children.push(element);
      else root = element;
    };
    if (closes === '/') {
      const closed = open.pop();
      if (closed?.name !== name || attributes.trim() !== '' || empty === '/') throw damaged();
      finish(closed);
      continue;
    }
    if ((root !== null && inside === undefined) || open.length >= MOST_LEVELS) throw damaged();
    const prefixes = prefixesIn(attributes, inside?.prefixes ?? new Map());
    const [prefix = '', local] = name.includes(':') ? name.split(':') : ['', name];
    const ns = prefixes.get(prefix) ?? '';
    if (local === undefined || (prefix !== '' && ns === '')) throw damaged();
    const element: Open = { name, ns, local, prefixes, text: '', children: [] };
    if (empty === '/') finish(element);
    else open.push(element);
  }
  if (root === null || open.length > 0) throw damaged();
  return root;
};
