/**
 * Letters that look like Latin ones, each before what it looks like: of Cyrillic, Greek and Armenian, and some of Latin
 * itself. The usual ones of Unicode Technical Standard 39 (confusables), from memory.
 */
const LOOKS =
  'АA ВB ЕE ЅS ІI ЈJ КK МM НH ОO РP СC ТT УY ХX аa вb гr еe ѕs іi јj кk мm нh оo рp сc тt уy хx һh ьb ѵv ԁd ԛq ԝw Ԁd Ԛq Ԝw Ӏl ӏl ' +
  'ΑA ΒB ΕE ΖZ ΗH ΙI ΚK ΜM ΝN ΟO ΡP ΤT ΥY ΧX αa γy ηn ιi κk νv οo ρp σo τt υu χx ϲc ϳj ' +
  'օo սu հh ոn ɑa ɡg ıi łl øo đd Łl ØO ĐD';

/** Among Latin letters and digits what many typefaces show alike; after all is in small letters. */
const SAME: readonly (readonly [RegExp, string])[] = [
  [/[i1|]/g, 'l'],
  [/0/g, 'o'],
  [/rn/g, 'm'],
  [/vv/g, 'w'],
];

const TABLE: ReadonlyMap<string, string> = new Map(LOOKS.split(' ').map(([from = '', to = '']) => [from, to]));

/**
 * What two names have in common that a reader takes for one: of the letters and digits how they look, without marks,
 * case, white space and punctuation.
 */
export const lookOf = (name: string): string => {
  const letters = [...name.normalize('NFKD').replace(/\p{M}/gu, '')].map((one) => TABLE.get(one) ?? one).join('');
  const bare = letters.toLowerCase().replace(/[^\p{L}\p{N}|]/gu, '');
  const look = SAME.reduce((text, [from, to]) => text.replace(from, to), bare);
  return look === '' ? name : look;
};
