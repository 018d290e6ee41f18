import { draw, mark, offers } from '../../forms/registry.ts';
import { seeded, shuffled } from '../../lib/random.ts';
import type { Detail, FormId, NumberField, Offer, Shown } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';

/** A question on paper, and its answer for another page. */
export interface PrintQuestion {
  /** What it is about, where the question does not say it. */
  readonly title: string;
  readonly scene: readonly string[];
  readonly ask: string;
  /** Lettered from A: steps to be put in order, or choices. */
  readonly choices: readonly string[];
  /** A number to be written: "ft AAL", "at most … kt"; one a field. */
  readonly fields: readonly string[];
  readonly answer: string;
  /** How it is worked out, why, source. */
  readonly notes: readonly string[];
}

/** What a pen can answer. */
const ON_PAPER: ReadonlySet<FormId> = new Set(['run', 'next', 'limit', 'scenario']);

/** Draws that are tried of a question before another is taken. */
const TRIES = 3;

/**
 * A sheet of questions about all things of a deck in turn, no item twice where others are left.
 * @param seed the same gives the same sheet
 * @param most how many at most
 */
export const questionSheet = (resolved: Resolved, seed: number, most: number): PrintQuestion[] => {
  const random = seeded(seed);
  const turns = inTurn(
    shuffled(
      random,
      offers(resolved, null, seed).filter(({ form }) => ON_PAPER.has(form)),
    ),
  );
  const proved = new Set<string>();
  const sheet: PrintQuestion[] = [];
  for (const offer of turns) {
    if (sheet.length >= most) break;
    if (offer.proves.every((key) => proved.has(key))) continue;
    const question = printed(resolved, offer, Math.floor(random() * 2 ** 32));
    if (question === null) continue;
    for (const key of offer.proves) proved.add(key);
    sheet.push(question);
  }
  return sheet;
};

/** The first question about each thing, then the second of each, and so on. */
const inTurn = (all: readonly Offer[]): Offer[] => {
  const groups = new Map<string, Offer[]>();
  for (const offer of all) groups.set(offer.about.thing, [...(groups.get(offer.about.thing) ?? []), offer]);
  const lists = [...groups.values()];
  const longest = Math.max(0, ...lists.map(({ length }) => length));
  return Array.from({ length: longest }, (_, i) => lists.flatMap((list) => list[i] ?? [])).flat();
};

const printed = (resolved: Resolved, offer: Offer, seed: number): PrintQuestion | null => {
  for (let i = 0; i < TRIES; i++) {
    const shown = draw(resolved, offer, (seed + i) >>> 0);
    // Marked as Don't know, it tells what would have been right.
    if (shown === null) continue;
    if (shown.form !== 'run' && shown.form !== 'next' && shown.form !== 'limit' && shown.form !== 'scenario')
      return null;
    const right =
      'choices' in shown ? shown.choices.map(({ id }) => !mark(resolved, offer, shown, { choice: id }).flawed) : [];
    return questionOf(shown, mark(resolved, offer, shown, null).detail, right);
  }
  return null;
};

export const letter = (i: number): string => String.fromCharCode(65 + i);

const fieldWords = ({ label, sense, unit, reference }: NumberField, _: number, all: readonly unknown[]): string =>
  [all.length > 1 ? label : '', sense ?? '', '……………', unit, reference ?? ''].filter((word) => word !== '').join(' ');

type Paper = Extract<Shown, { readonly form: 'run' | 'next' | 'limit' | 'scenario' }>;

/** @param right which of the choices are */
const questionOf = (shown: Paper, detail: Detail, right: readonly boolean[]): PrintQuestion => {
  const rightLetters = right.flatMap((isRight, i) => (isRight ? [letter(i)] : [])).join(' or ');
  const lettersOf = (options: readonly { readonly id: string }[], id: string): string =>
    letter(options.findIndex((one) => one.id === id));
  switch (shown.form) {
    case 'run': {
      const chips = detail.form === 'run' ? detail.chips : [];
      const own = chips.filter(({ state }) => state !== 'left-out');
      const others = chips.filter(({ state }) => state === 'left-out');
      const names = (list: typeof chips) => list.map(({ id }) => lettersOf(shown.chips, id)).join(', ');
      const isFree = detail.form === 'run' && detail.pairs < (own.length * (own.length - 1)) / 2;
      return {
        title: shown.title,
        scene: [...shown.scene, ...(shown.before.length > 0 ? [`Done before: ${shown.before.join(' · ')}`] : [])],
        ask: 'In which order? Leave out what does not belong.',
        choices: shown.chips.map(({ text }) => text),
        fields: [],
        answer: names(own),
        notes: [
          ...(isFree ? ['Some of these may be done in either order: see the procedure.'] : []),
          ...(others.length > 0 ? [`Does not belong: ${names(others)}`] : []),
        ],
      };
    }
    case 'next': {
      const told = detail.form === 'next' ? detail.right : null;
      return {
        title: shown.title,
        scene: [...shown.scene, ...(shown.before.length > 0 ? [`Done before: ${shown.before.join(' · ')}`] : [])],
        ask: shown.ask,
        choices: shown.choices.map(({ text }) => text),
        fields: [],
        answer: `${rightLetters}: ${told?.text ?? ''}`,
        notes: said(told?.why, told?.source),
      };
    }
    default: {
      const told = detail.form === 'limit' || detail.form === 'scenario' ? detail : null;
      return {
        title: '',
        scene: shown.form === 'scenario' ? [shown.situation, ...shown.scene] : shown.scene,
        ask: shown.ask,
        choices: shown.choices.map(({ text }) => text),
        fields: shown.fields.map(fieldWords),
        answer: `${rightLetters === '' ? '' : `${rightLetters}: `}${told?.right ?? ''}`,
        notes: said(told?.working.join('; '), told?.why, told?.source),
      };
    }
  }
};

const said = (...texts: readonly (string | undefined)[]): string[] =>
  texts.filter((text): text is string => text !== undefined && text !== '');
