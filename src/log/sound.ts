type Fields = Readonly<Record<string, unknown>>;

const ID = /^[a-z0-9]+\.[0-9]+(~[0-9a-z]+)?(\/m[0-9]+)?$/;
const DECK_REF = /^[a-z0-9][a-z0-9-]*\/[a-z0-9][a-z0-9-]*@[0-9a-f]{16}$/;
const FORM = /^[a-z][a-z-]*$/;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string';
const isLeft = (value: unknown): boolean => value === undefined || typeof value === 'string';
const areTexts = (value: unknown): boolean => value === undefined || (Array.isArray(value) && value.every(isText));

const areMarks = (value: unknown): boolean => {
  if (!isFields(value)) return false;
  for (const key of Object.keys(value)) {
    const mark = value[key];
    if (mark !== 'right' && mark !== 'wrong' && mark !== 'told' && mark !== 'moved') return false;
  }
  return true;
};

/**
 * Is this a line's answer of format 1, shaped as `ENTRY_SHAPES.answer` and `AnyShape` have it? A gain of speed alone:
 * nearly all lines are sound answers, and shapes take as long over each as parsing it. What this does not let through
 * is for the shapes to judge, and to complain of.
 */
export const isSoundAnswer = (raw: unknown): boolean => {
  if (!isFields(raw)) return false;
  const { id, at, off, app, drill, deck, form, about, variant, seat, sure, unsure, ms, help, flawed, g, mv } = raw;
  return (
    raw.k === 'answer' &&
    raw.v === 1 &&
    isText(id) &&
    ID.test(id) &&
    Number.isInteger(at) &&
    Number.isInteger(off) &&
    isText(app) &&
    isLeft(drill) &&
    isText(deck) &&
    DECK_REF.test(deck) &&
    isText(form) &&
    FORM.test(form) &&
    isFields(about) &&
    isText(about.thing) &&
    isLeft(about.situation) &&
    areTexts(about.part) &&
    isLeft(about.case) &&
    isLeft(about.rule) &&
    isText(variant) &&
    isLeft(seat) &&
    'shown' in raw &&
    'given' in raw &&
    (sure === null || typeof sure === 'boolean') &&
    areTexts(unsure) &&
    typeof ms === 'number' &&
    ms >= 0 &&
    isLeft(help) &&
    areMarks(raw.marks) &&
    (flawed === undefined || flawed === true) &&
    typeof g === 'number' &&
    g >= 0 &&
    g <= 1 &&
    Number.isInteger(mv)
  );
};
