import type { Finding } from '../../../deck/findings.ts';
import { messageOf } from '../../../deck/messages.ts';
import { parted, valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers } from '../../../lib/json.ts';
import { objectsAt } from '../fields/choices.ts';
import { WHEN, WHY } from '../forms/common-fields.ts';
import { TABLE } from '../forms/limit-fields.ts';
import { PROCEDURE, STEP } from '../forms/procedure-fields.ts';
import { DONE_CHOICES, SENSE_CHOICES, SHOW_CHOICES } from '../forms/words.ts';
import { type Called, calledAt } from './labels.ts';
import { fieldOf } from './places.ts';
import { inForm } from './scenario-words.ts';

interface About {
  readonly finding: Finding;
  readonly doc: Json;
  readonly called: Called;
}
/** Null: as the command line says it. */
type Say = (args: Finding['args'], about: About) => string | null;

const quoted = ({ label }: { readonly label: string }): string => `“${label}”`;
const chosen = (of: readonly (readonly [string, string])[], id: string | number | undefined): string =>
  `“${of.find(([one]) => one === id)?.[1] ?? id}”`;

const CHOSEN: ReadonlySet<string> = new Set(['choice', 'refer', 'source', 'yes']);
const EMPTY = 'This must not stay empty.';
const UNFIT = 'This is not written as it must be.';

/** What an empty box asks for. */
const wanting = ({ called: { kind } }: About): string =>
  kind === undefined || !CHOSEN.has(kind.is)
    ? EMPTY
    : kind.is === 'refer' && kind.to === 'option'
      ? 'Choose the right answer.'
      : 'Choose one.';

/** Words of the step that an id of a procedure names. */
const stepNamed = (nodes: Json | undefined, id: string): string | null => {
  if (isList(nodes)) return nodes.map((one) => stepNamed(one, id)).find((words) => words !== null) ?? null;
  if (!isMembers(nodes)) return null;
  if (nodes.id !== id) return stepNamed(nodes.steps, id) ?? stepNamed(nodes.lanes, id);
  return [nodes.do, nodes.say].filter((text) => typeof text === 'string').find((text) => text !== '') ?? null;
};

const caseNamed = (doc: Json, cases: string, id: string | number | undefined): string => {
  const place = objectsAt(doc, cases).findIndex((one) => one.id === id);
  return place < 0 ? String(id) : `Case ${place + 1}`;
};

const VARIANTS_ONLY = quoted(WHEN);

const SAYS: Partial<Record<Finding['code'], Say>> = {
  'missing-key': (_, about) => wanting(about),
  'too-few': (a, about) => (a.least === 1 ? wanting(about) : null),
  'wrong-type': (a) => (a.wanted === 'number' && a.found === 'string' ? 'A number is needed here.' : UNFIT),
  'wrong-form': (a, about) => (a.found === '' ? wanting(about) : null),
  'not-a-choice': (a, about) => (a.found === '' ? wanting(about) : `“${a.found}” is none of the choices.`),
  'unknown-key': (a) => `“${a.key}” is not known here. Remove it.`,
  'unknown-reference': (a, about) => {
    if (a.id === '') return wanting(about);
    if (a.what === 'value for the picture')
      return `The picture shows “${a.id}”, which is not drawn. Press “Draw runway and wind”, or choose no picture.`;
    return messageOf(about.finding).replace('Correct the id, or add what it names.', 'Choose another, or add it.');
  },
  'id-twice': (a) => `The name “${a.id}” is used twice. What is remembered hangs on it: give this one another name.`,
  'formula-syntax': (a, { finding }) =>
    a.reason === 'empty'
      ? EMPTY
      : a.reason === 'end'
        ? `Character ${a.at}: “${a.found}” does not follow on what stands before it. An operator such as && or >= is missing, or this is too much.`
        : messageOf(finding).replace('Split it with let.', 'Split it with a value that is worked out.'),
  'deck-unnamed': (a) =>
    `Still “${a.id}”. What learners remember hangs on this name: write publisher and deck, such as calder/take-off, before it is handed over.`,
  'text-long': (a) =>
    `This text has ${a.length} characters; on a phone ${a.most} fit. Shorten it, or move the rest into ${quoted(WHY)}.`,
  'until-passed': (a) =>
    `The last day ${a.date} has passed: where the revision before is installed, that one is asked. Set a later day, or none.`,
  'source-missing': () => 'No source is named. Choose one, with the place if there is one.',
  'edition-alone': () => 'An edition says nothing without a source. Choose the source, or remove the edition.',

  'step-silent': () => `Write what is done, what is said, or both.`,
  'block-shape': () => 'A block holds either steps or lanes, not both. Remove one of them.',
  'amount-empty': () => 'Choose a limit, or write a number with its unit.',
  'order-cycle': (a, { doc, finding }) => {
    const steps = valueAt(doc, finding.path);
    const names = String(a.steps)
      .split(' → ')
      .map((id) => `“${stepNamed(steps, id) ?? id}”`);
    return `These steps wait for one another in a circle: ${names.join(', then ')}. Remove one of ${quoted(STEP.needs)}, ${quoted(STEP.answers)} or ${quoted(STEP.after)}, or change the order.`;
  },
  'words-number': (_, { finding }) => messageOf(finding).replace('“cue”', quoted(STEP.cue)),
  'read-list-run': (a) =>
    a.done === 'memory' || a.done === 'flow'
      ? `A checklist is read, not done from memory. Set ${quoted(PROCEDURE.done)} to ${chosen(DONE_CHOICES, 'read-and-do')} or ${chosen(DONE_CHOICES, 'challenge-response')}, or change the title.`
      : null,
  'order-reason': (_, { finding }) =>
    messageOf(finding).replace(
      /Nothing says why: .*$/,
      `Nothing says why. If it must, say so under ${quoted(STEP.needs)}, ${quoted(STEP.cue)} or ${quoted(STEP.after)}; if not, let them be done in any order.`,
    ),

  'limit-empty': (a, about) => (a.wanted === 'from and to' ? 'Fill in from and to.' : wanting(about)),
  'limit-both': () => 'Either one value, or cases with a value each, not both.',
  'sense-unfit': (a) => `With the sense ${chosen(SENSE_CHOICES, a.sense)}, ${a.wanted} is needed and nothing else.`,
  'strict-unfit': (a) =>
    `“Below” and “above” go with at most and at least; they say nothing with ${chosen(SENSE_CHOICES, a.sense)}.`,
  'show-unit': (a) => `${chosen(SHOW_CHOICES, a.show)} does not fit the unit ${a.unit}. It goes with ${a.fits}.`,
  'given-unfit': () => 'This does not fit the condition. Choose again, or set it to “Any”.',
  'rows-order': (a) => `The rows must rise: ${a.x} stands behind ${a.before}.`,
  'table-unused': () =>
    `This table is neither asked nor used in a formula. Tick ${quoted(TABLE.asked)}, or read it with lookup() in a formula.`,
  'case-overlap': (a, { doc, finding }) => {
    const { parent } = parted(finding.path);
    const where = a.where === '' ? '' : ` (${a.where})`;
    return `${caseNamed(doc, parent, a.first)} and ${caseNamed(doc, parent, a.second)} can hold at once${where}. Confine one of them.`;
  },
  'variant-no-case': (a) => `No case holds for ${a.variant}. Add one, or confine the limit with ${VARIANTS_ONLY}.`,
  'case-gap': (a) => `No case holds for ${a.where}. Add one, or a case without conditions.`,
  'picture-unfit': (a) =>
    `A picture of the pitch shows degrees of the nose above or below the horizon, at most ${a.most}, and no direction. Correct the limit, or choose no picture.`,

  'paced-read': (a) =>
    `“${a.title}” is read from a list, so nobody does it in time from memory. Choose procedures that are done from memory or as a flow.`,
  'paced-twice': () => 'This stands here a second time. Keep one of them.',
  'paced-cue': () =>
    'When does the step come? Fill in one of speed, height, moment, or another step with the time after it, and no more.',
  'paced-moment': () => 'No engine fails in this run. Say that one may fail, or choose another moment.',
  'paced-ground': () => 'This comes in the air, and no step raises the nose. Choose that step.',
  'paced-wind': () =>
    'This does not say how to hold the stick: a question with choices is needed, in a scenario that draws runway and wind.',
  'paced-never': (_, { finding }) =>
    messageOf(finding)
      .replace('More “thrust”', 'More thrust')
      .replace('a smaller “dragClimbing”', 'a smaller drag after lift-off'),

  'rule-never': (a) =>
    `This rule never decides: none of ${a.tried} draws comes to it. Correct its condition or those before it, or remove it.`,
  'rule-rare': (a) => `This rule decided none of ${a.tried} random draws. Narrow the draws so that it can be asked.`,
};

const aboutOf = (finding: Finding, doc: Json): About => ({ finding, doc, called: calledAt(doc, fieldOf(finding)) });

const said = (about: About): string =>
  SAYS[about.finding.code]?.(about.finding.args, about) ?? inForm(messageOf(about.finding));

/** What is said at the field. The checker speaks of a file; who fills in a form sees neither quotation marks nor keys. */
export const formWords = (finding: Finding, doc: Json = null): string => said(aboutOf(finding, doc));

/** Say by themselves what they are about. */
const TELLING: ReadonlySet<Finding['code']> = new Set(['source-missing', 'nothing-asked', 'unknown-key']);

/** What is said above the fields: which field, then what: "Case 2, Value: must not stay empty." */
export const listWords = (finding: Finding, doc: Json): string => {
  const about = aboutOf(finding, doc);
  const words = said(about);
  const trail = TELLING.has(finding.code) ? about.called.trail.slice(0, -1) : about.called.trail;
  return trail.length === 0 ? words : `${trail.join(', ')}: ${words.replace(/^This (?=must|is) ?/, '')}`;
};
