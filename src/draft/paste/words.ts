import { plain, QUOTED } from './clean.ts';
import type { CrewOf } from './crew.ts';
import type { Fields } from './types.ts';

/** What one line of a list says. */
export interface Said {
  readonly fields: Pick<Fields, 'by' | 'do' | 'say' | 'cue' | 'cueInWords'>;
  readonly responds?: true;
  readonly notes: readonly string[];
}

const VERB =
  /(?:^|[,;:]\s*|\s)(?:and\s+|then\s+)*((?:calls?(?: out| for)?|says?|announces?|responds?(?: with)?|repl(?:y|ies)(?: with)?|answers?(?: with)?|callout|call-out))\s*[:,–—-]?\s*$/i;
/** Said behind a colon; or, without one, what begins like a sentence or a number. */
const SPOKEN = /^(?:calls?(?: out)?|says?|announces?|responds?|replies|answers?|callout|call-out)\s*[:–—]\s*(\S.*)$/i;
const SPOKEN_WORDS = /^(?:calls|says|announces|responds|replies|answers)(?: out| with)?\s+([\p{Lu}\d].*)$/u;
const spoken = (text: string): string | undefined => (SPOKEN.exec(text) ?? SPOKEN_WORDS.exec(text))?.[1];
const RESPONDS = /\b(?:respon(?:ds?|se)|repl(?:y|ies)|answers?)\b/i;
const LATER = /^(?:at|when|passing|reaching|after|before|on|upon|once|as|if)\b/i;
const CUE =
  /^(?:(?<kept>(?:at|passing|reaching|after|before|upon|approaching|above|below|through)\s[^:,;–—"“„«]{1,60})|(?:when|once|as soon as)\s(?<state>[^:,;–—"“„«]{2,60}))\s*(?:[:,]|\s[–—-])\s+(?=\S)/i;

/** One line, without what stood before it: crew, action, callout and cue where the text says so. */
export const readWords = (text: string, crewOf: CrewOf, known?: string): Said => {
  const { by, rest } = crewIn(plain(text), crewOf);
  const responds = RESPONDS.test(rest.slice(0, 20)) ? { responds: true as const } : {};
  const who = by ?? known;
  const { cue, rest: without } = cueIn(rest);
  const said = calloutIn(without, crewOf);
  const again = by === undefined && said.do !== undefined ? crewIn(said.do, crewOf) : null;
  const crewBy = who ?? again?.by;
  const words = again?.by === undefined ? said : { ...said, do: again.rest };
  const { notes, cue: later, do: action, say } = words;
  const moment = [cue, later].filter((one) => one !== undefined).join('; ');
  const fields = {
    ...(crewBy !== undefined && { by: crewBy }),
    ...(action !== undefined && action !== '' && { do: capital(action) }),
    ...(say !== undefined && { say }),
    ...(moment !== '' && { cue: moment, cueInWords: true as const }),
  };
  return { fields, ...(say !== undefined && responds), notes };
};

interface Crewed {
  readonly by?: string;
  readonly rest: string;
}

const NAME = "[\\p{L}\\d][\\p{L}\\d/+&.' ]{0,23}?";
const BEFORE: readonly RegExp[] = [
  new RegExp(`^[[(](${NAME})[\\])]\\s*[:–—-]?\\s*(\\S.*)$`, 'u'),
  new RegExp(`^(${NAME})\\s*:\\s*(\\S.*)$`, 'u'),
  new RegExp(`^(${NAME})(?:\\s+[-–—|]|[–—])\\s*(\\S.*)$`, 'u'),
];
const BEHIND: readonly RegExp[] = [
  new RegExp(`^(\\S.*?)\\s*[[(](?:by )?(${NAME})[\\])]\\.?$`, 'u'),
  new RegExp(`^(\\S.*?)\\s+[-–—|]\\s*(${NAME})$`, 'u'),
];
/** Joins two names, so that the first alone is not who does it. */
const JOINS = /^(?:and|or|&|\/|\+|,|is|are|'s|’s)\b|^[&/+,]/i;

/** Does the line begin with who does it? */
export const beginsWithCrew = (text: string, crewOf: CrewOf): boolean => crewBefore(text, crewOf) !== null;

/** Who, before the words or behind them. */
const crewIn = (text: string, crewOf: CrewOf): Crewed => {
  const before = crewBefore(text, crewOf);
  if (before !== null) return before;
  for (const form of BEHIND) {
    const [, rest = '', name = ''] = form.exec(text) ?? [];
    const by = crewOf(name);
    if (by !== null) return { by, rest: rest.replace(/\s*[–—-]$/, '') };
  }
  return { rest: text };
};

const crewBefore = (text: string, crewOf: CrewOf): Crewed | null => {
  for (const form of BEFORE) {
    const [, name = '', rest = ''] = form.exec(text) ?? [];
    const by = crewOf(name);
    if (by !== null) return { by, rest };
  }
  const words = text.split(' ');
  for (let n = Math.min(3, words.length - 1); n > 0; n--) {
    const name = words.slice(0, n).join(' ');
    const rest = words.slice(n).join(' ');
    const by = crewOf(name);
    if (by === null || JOINS.test(rest)) continue;
    // "Both engines stable" is about engines: words alone name the crew only before a verb of speech or in capitals.
    const isShort = /^[A-Z][A-Z0-9/&+]{1,5}$/.test(words[0] as string);
    if (isShort || VERB.test(` ${rest.split(/["“„«‘']/)[0]}`) || spoken(rest) !== undefined) return { by, rest };
  }
  return null;
};

const cueIn = (text: string): { readonly cue?: string; readonly rest: string } => {
  const found = CUE.exec(text);
  if (found === null) return { rest: text };
  const cue = (found.groups?.kept ?? found.groups?.state ?? '').trim();
  return { cue, rest: text.slice(found[0].length) };
};

interface Parts {
  readonly do?: string;
  readonly say?: string;
  readonly cue?: string;
  readonly notes: readonly string[];
}

const loose = (text: string): string =>
  text
    .replace(/^(?:\s*[,;:.–—-]\s*|\s*(?:and|then)\s+)+/i, '')
    .replace(/(?:\s*[,;:–—-]\s*|\s+(?:and|then)\s*)+$/i, '')
    .trim();

/** What is said stands in quotation marks, or behind a verb of speech. Marks around a label in a sentence are no callout. */
const calloutIn = (text: string, crewOf: CrewOf): Parts => {
  const quoted = [...text.matchAll(QUOTED)];
  const [first] = quoted;
  if (quoted.length > 1)
    return {
      do: text,
      notes: ['More than one callout in quotation marks: part this row in the list, or say below what is said.'],
    };
  if (first === undefined) {
    const say = spoken(text);
    return say === undefined ? { do: text, notes: [] } : { say: say.trim(), notes: [] };
  }
  const say = (first[1] ?? first[2] ?? '').trim();
  const before = text.slice(0, first.index).trim();
  const behind = loose(text.slice(first.index + first[0].length));
  const verb = VERB.exec(before);
  const isCallout =
    verb !== null || ((before === '' || /[,;:–—-]$/.test(before)) && (behind === '' || LATER.test(behind)));
  if (!isCallout) return { do: text, notes: [] };
  const action = loose(verb === null ? before : before.slice(0, verb.index));
  if (behind !== '' && crewBefore(behind, crewOf) !== null)
    return { do: text, notes: ['Two of the crew in one row: part it in the list.'] };
  if (LATER.test(behind)) return { do: action, say, cue: behind, notes: [] };
  return { do: [action, behind].filter((one) => one !== '').join(', '), say, notes: [] };
};

/** What stood before it (crew, cue) is gone: the first letter begins a sentence. */
const capital = (text: string): string => text.replace(/^\p{Ll}(?!\p{Lu})/u, (letter) => letter.toUpperCase());
