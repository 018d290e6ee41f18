/** What each finding says to an author: what is wrong and what to do. One place for the app and the command line. */
import type { Args, Code, Finding } from '../subjects/finding.ts';
import { formulaMessage } from './formula-messages.ts';

type Say = (args: Args) => string;

/** ": did you mean “x”?" where there is a near one. */
const near = (a: Args): string => (a.near === undefined || a.near === '' ? '' : ` Did you mean “${a.near}”?`);

const TYPES: Readonly<Record<string, string>> = {
  string: 'a text in quotation marks',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'an object in { }',
  strict_object: 'an object in { }',
  record: 'an object in { }',
  strict_tuple: 'a pair in [ ]',
  null: 'null',
  undefined: 'nothing',
};
const type = (x: string | number | undefined): string => TYPES[String(x)] ?? String(x);

const KINDS: Readonly<Record<string, string>> = { number: 'a number', boolean: 'a truth value', string: 'a word' };
const kind = (x: string | number | undefined): string => KINDS[String(x)] ?? String(x);

/** What a form looks like, by what tells its pattern apart. */
const FORMS: readonly (readonly [RegExp, string])[] = [
  [/\{86\}/, 'a signature that was written by Recency: sign the deck again'],
  [/\{4\}-/, 'a date such as 2026-11-25'],
  [/\[1-9\]/, 'a version of three numbers such as 1.0.2'],
  [/https/, 'an address that starts with https://'],
  [/~\[0-9a-z\]/, 'facet~stamp, for example place~1x2y3z'],
  [/\\\//, 'publisher/name in small letters, digits and hyphens'],
  [/\{2,3\}/, 'a language tag such as en or en-GB'],
  [/\(#/, 'a source, or source#place, for example manual#3.2'],
  [/#/, 'scenario#question, both by their id'],
  [/\[A-Z/, 'letters, digits and hyphens, starting with a letter or digit'],
  [/./, 'small letters, digits and hyphens, starting with a letter or digit'],
];
const formOf = (pattern: string): string => FORMS.find(([sign]) => sign.test(pattern))?.[1] ?? pattern;

const EXPECTED: Readonly<Record<string, string>> = {
  value: 'a value',
  key: 'a key in quotation marks',
  quote: 'the closing quotation mark of a text',
  string: 'no line break or control character inside a text: write \\n for a line break',
  escape: 'one of \\" \\\\ \\/ \\b \\f \\n \\r \\t \\u0000 after a backslash',
  end: 'nothing more after the end of the deck',
};

/** Words of a step in quotation marks; a callout has its own. */
const said = (text: string | number | undefined): string =>
  /^“[^”]*”$/.test(String(text)) ? String(text) : `“${text}”`;

const MESSAGES: Readonly<Record<Code, Say>> = {
  'too-big': (a) => `The deck has more than ${a.most} MB. Split it into several decks.`,
  'too-deep': (a) => `Lists and objects stand more than ${a.most} levels deep in one another. No deck needs so many.`,
  unreadable: (a) =>
    `This is not JSON: expected ${EXPECTED[String(a.what)] ?? `“${a.what}”`}, found ${a.found === '' ? 'the end of the text' : `“${a.found}”`}.${a.what === 'key' && a.found === '}' ? ' Remove the comma before it.' : ''}`,
  'number-size': (a) => `The number ${a.found} is larger than can be computed with. Write a smaller one.`,
  'key-forbidden': (a) => `The key “${a.key}” is not allowed in a deck. Remove it.`,
  'key-twice': (a) => `The key “${a.key}” stands twice in the same object. Keep one of them.`,

  'unknown-key': (a) =>
    `“${a.key}” is not something a deck can say here.${near(a) || ' Remove it; of a deck made with a newer version of the app, update this one.'}`,
  'missing-key': (a) => `“${a.key}” is missing here. Add it.`,
  'wrong-type': (a) => `Expected ${type(a.wanted)}, found ${type(a.found)}.`,
  'not-a-choice': (a) => `“${a.found}” is none of: ${a.choices}.${near(a)}`,
  'wrong-form': (a) => `“${a.found}” is not in the right form: ${formOf(String(a.form))}.`,
  'too-many': (a) => `At most ${a.most} may stand here. Remove some.`,
  'too-few': (a) => (a.least === 1 ? 'This must not be empty.' : `At least ${a.least} are needed here.`),
  'too-small': (a) => `The number must be ${a.least} or more.`,

  'id-twice': (a) => `The id “${a.id}” is used twice. Memory hangs on it: give this one another id.`,
  'name-unfit': (a) =>
    `“${a.name}” cannot be a name in formulas. Names start with a small letter, have letters and digits only, and are no reserved word of the formula language.`,
  'name-twice': (a) => `The name “${a.name}” is already taken by another value. Rename one of them.`,
  'unknown-reference': (a) => `There is no ${a.what} “${a.id}”.${near(a) || ' Correct the id, or add what it names.'}`,
  'options-few': (a) => `At least ${a.least} option${a.least === 1 ? ' is' : 's are'} needed here.`,
  'range-empty': (a) => `From ${a.from} to ${a.to} holds nothing. “from” must be the smaller one.`,
  'step-size': (a) => `The step ${a.step} does not fit: it must be above 0 and give no more than a million values.`,
  'use-cycle': () => 'A block uses itself, directly or through another. Break the circle.',
  'too-many-steps': (a) => `This procedure has ${a.steps} steps. Split it: at most ${a.most}.`,

  'formula-syntax': (a) => `Formula, character ${a.at}: ${formulaMessage(a)}`,
  'formula-name': (a) =>
    `Formula, character ${a.at}: nothing here is called “${a.name}”.${near(a) || ' Draw it, or define it above with let.'}`,
  'formula-kind': (a) => `Formula, character ${a.at}: ${kind(a.wanted)} is needed here, this is ${kind(a.found)}.`,
  'formula-result': (a) => `The formula gives ${kind(a.found)}, but ${kind(a.wanted)} is needed.`,
  'formula-limit': (a) =>
    `Formula, character ${a.at}: the limit “${a.id}” is not one number (a fact, a table, from–to, or cases by condition). Use a limit with a single value, or lookup() for a table.`,
  'formula-table': (a) => `Formula, character ${a.at}: “${a.id}” has no table. Use limit() for a single number.`,
  'place-unknown': (a) =>
    `The text names {${a.name}}, which is neither drawn nor given by the day.${near(a) || ' Correct the name, or write the word without braces.'}`,
  'text-long': (a) =>
    `This text has ${a.length} characters; on a phone ${a.most} fit. Shorten it, or move the rest into “why”.`,
  'text-html': () => 'HTML is shown as it is written, not carried out. Remove the marks.',

  'date-impossible': (a) => `The calendar has no day ${a.date}.`,
  'review-early': (a) => `The review date ${a.date} lies before the deck takes effect (${a.effective}).`,
  'review-passed': (a) =>
    `The review date ${a.date} has passed. Check the deck against its sources and set a new date.`,
  'until-early': (a) => `The last day ${a.date} lies before the deck takes effect (${a.effective}).`,
  'until-passed': (a) =>
    `The last day ${a.date} has passed: where the revision before is installed, that one is asked. Set a later day, or remove “until”.`,
  'source-missing': () => 'No source is named. Add “source”, with the place if there is one.',
  'edition-alone': (a) =>
    `The edition “${a.edition}” says nothing without a source beside it. Add “source”, or remove “edition”.`,
  'deck-unnamed': (a) =>
    `The deck is still called “${a.id}”. Memory hangs on that name: give it your own, publisher/deck, before it is handed over.`,
  'nothing-asked': () => 'The deck has no procedure, limit or scenario: there is nothing to ask. Add one.',

  'step-silent': (a) => `The step “${a.id}” says nothing. Give it “do”, “say” or both.`,
  'block-shape': () => 'A block has either “steps” or “lanes”, not both.',
  'cue-empty': () => 'This says nothing. Give it a text, a limit or a value of the day, or remove it.',
  'amount-empty': () => 'Give either “limit”, or “value” with “unit”.',
  'wait-unit': (a) => `A wait is in s, min or h${a.unit === '' ? '; no unit is given' : `, not in ${a.unit}`}.`,
  'order-cycle': (a) =>
    `These steps wait for one another in a circle: ${a.steps}. Remove one of “needs”, “answers” or “after”, or change the order.`,
  'same-words': (a) =>
    `Two steps read the same (${said(a.text)}) and may stand in any order, so nobody can tell them apart. Order them, or word them differently.`,
  'stranger-real': (a) => `${said(a.text)} is a real step of this procedure. A stranger must not belong.`,
  'if-never': () => 'This condition never holds, so the step is never asked. Correct it, or remove the step.',
  'words-number': (a) =>
    `The words give the order away: ${said(a.first)}, ${said(a.second)}. Leave the numbers out of the text (a height can stand in “cue”).`,
  'read-list-run': (a) =>
    a.done === 'memory' || a.done === 'flow'
      ? 'A checklist is read, not done from memory. Set “done” to read-and-do or challenge-response, or change the title.'
      : 'The order of a read list is never asked, so strangers have no use here. Remove them.',
  'order-reason': (a) =>
    `Must ${said(a.first)} come before ${said(a.second)}? Nothing says why: no cue, answer, wait or need. If not, use lanes or together.`,

  'limit-empty': (a) => `No value is given. Add “${a.wanted}”.`,
  'limit-both': (a) => `Give either “${a.wanted}” or “cases”, not both.`,
  'sense-unfit': (a) => `With the sense “${a.sense}”, ${a.wanted} is needed and nothing else.`,
  'strict-unfit': (a) => `“strict” turns at least and at most into above and below; it says nothing with “${a.sense}”.`,
  'show-unit': (a) => `“${a.show}” does not fit the unit ${a.unit}. It goes with ${a.fits}.`,
  'given-unfit': (a) =>
    `The condition “${a.name}” is given by ${a.wanted === 'boolean' ? 'true or false' : a.wanted === 'number' ? 'a range, {"from": …, "to": …}' : 'the id of a choice'}.`,
  'rows-order': (a) => `The inputs of a table must rise: ${a.x} stands behind ${a.before}.`,
  'table-unused': () =>
    'This table is neither asked nor used in a formula. Set “asked” to true, or read it with lookup().',
  'limit-asks-day': (a) =>
    `${a.label} is a value of the day: it differs from flight to flight and cannot be memorised.`,
  'picture-unfit': (a) =>
    `A picture of the pitch shows degrees of the nose above or below the horizon, at most ${a.most}, and no direction. Correct the limit, or remove “picture”.`,
  'case-overlap': (a) =>
    `The cases “${a.first}” and “${a.second}” can hold at once${a.where === '' ? '' : ` (${a.where})`}. Confine one of them.`,
  'variant-no-case': (a) => `No case holds for ${a.variant}. Add one, or confine the limit with “when”.`,
  'case-gap': (a) => `No case holds for ${a.where}. Add one, or a case without “given”.`,
  'slip-right': (a) => `The slip ${a.value} is a right answer. Correct or remove it.`,

  'scenario-never': (a) =>
    `None of ${a.tried} draws meets everything that is required${a.what === '' ? '' : ` (${a.what})`}, so this is never asked. Widen the draws, or loosen “require”.`,
  'scenario-rare': (a) =>
    `None of ${a.tried} random draws meets everything that is required. If there are any, they are too rare: narrow the draws.`,
  'rule-never': (a) =>
    `The rule “${a.id}” never decides: none of ${a.tried} draws comes to it. Correct its condition or those before it, or remove it.`,
  'rule-rare': (a) =>
    `The rule “${a.id}” decided none of ${a.tried} random draws. Narrow the draws so that it can be asked.`,
  'rule-none': (a) =>
    `In ${a.share} % of the draws no rule holds (${a.example}), and they are left out. Add a last rule without “if”, or a “require”.`,
  'draw-no-value': (a) =>
    `In ${a.share} % of the draws this has no value (${a.example}): a division by zero, a root of a negative number, or a table read outside its rows. They are left out: add a “require”.`,
  'wind-unsound': (a) =>
    `A tailwind of ${a.tail} kt is drawn (${a.example}) and no rule refuses it. Add a “require”, or a first rule that does not take off.`,
  'near-v1': () =>
    'Events within 5 kt below V1 are drawn here because of “nearV1”. No crew is judged in that second: keep it only if you mean it.',
  'runway-degrees': (a) =>
    `A runway is drawn in degrees, 70 for 07: ${a.value} is shown as ${a.shown}. Write tens from 10 to 360.`,
  'direction-range': (a) =>
    `A direction is drawn in degrees from 0 to 360: ${a.value} is shown as ${a.shown}. Write it within them.`,
  'events-blank': (a) =>
    a.other === ''
      ? 'Nothing is shown of any event. Write what is seen or heard of it.'
      : `Nothing is shown of this event, nor of “${a.other}”: nobody can tell them apart. Write what is seen or heard, or remove one.`,
  'condition-unused': (a) => `Nothing uses “${a.label}”: no step, case, formula or text. Use it, or remove it.`,

  'paced-read': (a) =>
    `“${a.title}” is read from a list, so nobody does it in time from memory. Name procedures with “done” memory or flow.`,
  'paced-twice': (a) => `“${a.id}” stands here a second time. Keep one of them.`,
  'paced-cue': () =>
    'When does the step come? Give one of “speed”, “height”, “moment”, or “after” another step with “seconds”, and no more.',
  'paced-moment': () => 'No engine failure is drawn in this run. Add “failure”, or choose another moment.',
  'paced-ground': () => 'This comes in the air, and no step raises the nose. Name that step in “rotates”.',
  'paced-without': () => 'No rule is left whose wind could be drawn. Leave one of them out here.',
  'paced-wind': (a) =>
    `“${a.id}” does not say how to hold the stick: a question with choices is needed, in a scenario that draws runway, windDir and windSpeed.`,
  'paced-share': (a) => `A share of the runs is a number from 0 to 1, not ${a.share}.`,
  'paced-zero': () => 'With 0 the aeroplane does not fly. Write a number above it.',
  'paced-engines': (a) => `Engines are counted: ${a.engines} is no whole number.`,
  'paced-pitch': (a) => `The pitch held in the climb (${a.climb}°) is less than that at lift-off (${a.off}°).`,
  'paced-never': (a) =>
    a.what === 'roll'
      ? `At ${a.kt} kt drag and friction are as great as the thrust: the speeds of the cues are never reached. More “thrust”, or less of the others.`
      : `At ${a.kt} kt the drag is as great as the thrust${a.what === 'out' ? ' without one engine' : ''}: it does not climb. More “thrust”, or a smaller “dragClimbing”.`,
  'area-empty': (a) => `“${a.label}” has no size, so nobody sees it. Write a width and a height above 0.`,
  'area-outside': (a) =>
    `“${a.label}” reaches beyond the plan, which is ${a.wide} wide and at most ${a.high} high. Move it, or make it smaller.`,
};

/** Where there is one, what is wrong and what to do, in plain words. */
export const messageOf = (finding: Pick<Finding, 'code' | 'args'>): string => MESSAGES[finding.code](finding.args);
