/** Assignments as files: written in one layout, read with words for whoever opens a wrong one. */
import * as v from 'valibot';
import { layOutBy, type Shape } from '../deck/layout.ts';
import { messageOf } from '../deck/messages.ts';
import { shapeFinding } from '../deck/read.ts';
import { bytesOf, placeOf, scan } from '../deck/scan.ts';
import type { Json } from '../lib/canonical-json.ts';
import { dateWords, dayOfIso } from '../lib/date-words.ts';
import type { AssignedGroup, Assignment, AssignmentFinding, ReadAssignment } from '../model/assignment.ts';
import { at, short } from '../subjects/finding.ts';
import { AssignmentShape } from './assignment-shape.ts';

/** Bytes; one of five hundred procedures has a third of it. */
const MOST_BYTES = 64_000;

/** Members in the order of the shape: a file that was cut off still says first what it is. */
export const writeAssignment = (assignment: Assignment): string =>
  layOutBy(assignment as unknown as Json, AssignmentShape as unknown as Shape);

const refused = (text: string, where = 'the file'): ReadAssignment => ({ findings: [{ where, text }] });

/** Size, levels and keys are looked at before the text is parsed. Never throws. */
export const readAssignment = (text: string): ReadAssignment => {
  if (bytesOf(text, MOST_BYTES) > MOST_BYTES)
    return refused(`The file has more than ${MOST_BYTES / 1000} kB. An assignment never has: is it the right file?`);
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text;
  if (plain.trim() === '') return refused('The file is empty. Ask for it anew.');
  if (/^\s*</.test(plain)) return refused('This is a web page, not an assignment. Ask for the file itself.');
  const trouble = scan(plain);
  if (trouble === null) return checkAssignment(JSON.parse(plain));
  const { line, column } = placeOf(plain, trouble.at);
  const where = `line ${line}, column ${column}`;
  if (plain.slice(trouble.at).trim() === '')
    return refused('The file ends too early: only a part of it arrived. Ask for it anew.', where);
  return refused(
    `This is no assignment as Recency writes it, or it was changed on the way. ${messageOf(trouble)} Ask for the file anew.`,
    where,
  );
};

const has = (value: object, key: string): boolean => Object.hasOwn(value, key);

/** The same of a value that was parsed, or is being made. */
export const checkAssignment = (value: unknown): ReadAssignment => {
  if (typeof value !== 'object' || value === null || !('recency' in value) || value.recency !== 'assignment')
    return refused(
      typeof value === 'object' && value !== null && has(value, 'format') && has(value, 'sources')
        ? 'This is a deck, not an assignment. Open it as a deck file.'
        : 'This is not an assignment. Ask your instructor for the file that ends in .assignment.json.',
    );
  if ('v' in value && typeof value.v === 'number' && value.v > 1)
    return refused(
      `This assignment is of format ${value.v}, made by a newer version of Recency. Go online, let the app update itself, and open it again.`,
      '/v',
    );
  const read = v.safeParse(AssignmentShape, value);
  if (!read.success) return { findings: read.issues.slice(0, 50).map((issue) => shapeWords(issue, value)) };
  const assignment: Assignment = read.output;
  const findings = [...deckFindings(assignment), ...groupFindings(assignment), ...dateFindings(assignment)];
  return findings.length === 0 ? { assignment, findings } : { findings };
};

/** Forms that no deck has, by the member that has them. */
const FORMS: Readonly<Record<string, string>> = {
  address: 'an address that starts with https://, without spaces',
  contentId: '64 of the digits 0 to 9 and a to f',
  things: 'publisher/name#thing',
  id: 'made by Recency: do not write it by hand',
};

const shapeWords = (
  issue: v.BaseIssue<unknown> & { readonly requirement?: unknown },
  root: unknown,
): AssignmentFinding => {
  const found = shapeFinding(issue, root);
  const where = found.path === '' ? 'the file' : found.path;
  const [last = '', before = ''] = found.path.split('/').reverse();
  const named = /^\d+$/.test(last) ? before : last;
  if (issue.type === 'max_value') return { where, text: `The number must be ${issue.requirement} or less.` };
  if (issue.type === 'integer') return { where, text: 'This must be a whole number.' };
  switch (found.code) {
    case 'unknown-key':
      return { where, text: `“${found.args.key}” is not something an assignment can say. Remove it.` };
    case 'wrong-form': {
      const form = FORMS[named];
      // Ids of decks, groups and variants have the forms that they have in decks.
      if (form === undefined || (named === 'id' && found.path !== '/id')) break;
      return { where, text: `“${found.args.found}” is not in the right form: ${form}.` };
    }
    case 'too-many':
      return { where, text: `This is longer than ${found.args.most}. Shorten it.` };
  }
  return { where, text: messageOf(found) };
};

const deckFindings = ({ decks }: Assignment): AssignmentFinding[] =>
  decks.flatMap(({ id, address }, i) => {
    const found: AssignmentFinding[] = [];
    if (decks.findIndex((one) => one.id === id) < i)
      found.push({ where: at('/decks', i, 'id'), text: `The deck “${id}” is assigned twice. Keep one of them.` });
    const wrong = address === undefined ? null : addressProblem(address);
    if (wrong !== null) found.push({ where: at('/decks', i, 'address'), text: wrong });
    return found;
  });

const addressProblem = (address: string): string | null => {
  try {
    const { protocol, username, password } = new URL(address);
    if (protocol !== 'https:') return `“${short(address)}” is not https. Put the deck on an https address.`;
    return username === '' && password === '' ? null : 'Leave name and password out of the address.';
  } catch {
    return `“${short(address)}” is no address. Write it whole, from https:// to the end of the file name.`;
  }
};

const groupFindings = ({ decks, groups = [] }: Assignment): AssignmentFinding[] => {
  const known = new Set(decks.map(({ id }) => id));
  const taken = new Map<string, AssignedGroup>();
  return groups.flatMap((group, g) => {
    const found: AssignmentFinding[] = [];
    if (groups.findIndex(({ id }) => id === group.id) < g)
      found.push({
        where: at('/groups', g, 'id'),
        text: `Two parts have the id “${group.id}”. Give “${group.name}” another.`,
      });
    group.things.forEach((thing, t) => {
      const where = at('/groups', g, 'things', t);
      const before = taken.get(thing);
      if (!known.has(thing.slice(0, thing.indexOf('#'))))
        found.push({ where, text: `“${thing}” is of no deck that is assigned. Assign its deck too, or leave it out.` });
      if (before !== undefined)
        found.push({
          where,
          text:
            before === group
              ? `“${thing}” stands twice in “${group.name}”. Keep one of them.`
              : `“${thing}” is in “${before.name}” and in “${group.name}”. Leave it in one of them.`,
        });
      taken.set(thing, group);
    });
    return found;
  });
};

/** Of a day that the calendar has. */
const inWords = (date: string): string => dateWords(dayOfIso(date) ?? 0);

const dateFindings = (assignment: Assignment): AssignmentFinding[] => {
  const { made, checkDate, groups = [] } = assignment;
  const dates: (readonly [string, string | undefined])[] = [
    ['/made', made],
    ['/checkDate', checkDate],
    ...groups.flatMap(({ checkDate: own, opens }, g) => [
      [at('/groups', g, 'checkDate'), own] as const,
      [at('/groups', g, 'opens'), opens] as const,
    ]),
  ];
  const none = dates.flatMap(([where, date]): AssignmentFinding[] =>
    date === undefined || dayOfIso(date) !== null
      ? []
      : [{ where, text: `The calendar has no day ${date}. Write another, as year-month-day.` }],
  );
  if (none.length > 0) return none;
  return groups.flatMap(({ name, checkDate: own, opens }, g) => {
    const found: AssignmentFinding[] = [];
    if (own !== undefined && checkDate === undefined)
      found.push({
        where: at('/groups', g, 'checkDate'),
        text: `“${name}” has a check date and the assignment has none. Add one for the rest; it is the last.`,
      });
    // ISO dates are in order as texts are.
    if (own !== undefined && checkDate !== undefined && own > checkDate)
      found.push({
        where: at('/groups', g, 'checkDate'),
        text: `“${name}” is checked on ${inWords(own)}, after the rest on ${inWords(checkDate)}. Choose an earlier day.`,
      });
    const last = own ?? checkDate;
    if (opens !== undefined && last !== undefined && opens > last)
      found.push({
        where: at('/groups', g, 'opens'),
        text: `“${name}” opens on ${inWords(opens)}, after its check on ${inWords(last)}. Choose an earlier day.`,
      });
    return found;
  });
};
