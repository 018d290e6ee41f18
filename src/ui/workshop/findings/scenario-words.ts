/** Words of the file in messages about scenarios, and the words of the form for the same. */
const FORM_WORDS: readonly (readonly [string, string])[] = [
  ['add a “require”', 'press “Add what must hold”'],
  ['Add a “require”', 'Press “Add what must hold”'],
  ['or a “require”', 'or press “Add what must hold”'],
  ['loosen “require”', 'loosen what stands under “Drawn so that”'],
  ['without “if”', 'without an “If”'],
  [
    'Draw it, or define it above with let.',
    'Choose one from “What can be written here”, draw it, or work it out above.',
  ],
  ['because of “nearV1”', 'because that is ticked'],
  ['“from” must', '“From” must'],
];

/** A message as somebody understands who fills in a form. */
export const inForm = (message: string): string =>
  FORM_WORDS.reduce((text, [from, to]) => text.replace(from, to), message);
