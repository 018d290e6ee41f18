import { describe, expect, test } from 'vitest';
import { foldWords } from '../../../src/forms/words/fold.ts';
import { areAlike, isSaidIn, matchWords } from '../../../src/forms/words/match.ts';
import { numberWords } from '../../../src/forms/words/numbers.ts';
import { isOneApart, oneSpelling } from '../../../src/forms/words/spelling.ts';

const isRight = (said: string, right: string, others: readonly string[] = [], also: readonly string[] = []) =>
  matchWords(said, right, also, others).right;

/* Spellings: Oxford ("New Hart's Rules") and Chicago ("The Chicago Manual of Style"), from memory. */
test.each([
  ['colour', 'color'],
  ['coloured', 'colored'],
  ['harbour', 'harbor'],
  ['vapour', 'vapor'],
  ['stabilise', 'stabilize'],
  ['stabilised', 'stabilized'],
  ['stabilisation', 'stabilization'],
  ['pressurising', 'pressurizing'],
  ['analyse', 'analyze'],
  ['centre', 'center'],
  ['centred', 'centered'],
  ['metres', 'meters'],
  ['kilometre', 'kilometer'],
  ['defence', 'defense'],
  ['licence', 'license'],
  ['travelled', 'traveled'],
  ['levelling', 'leveling'],
  ['cancelled', 'canceled'],
  ['signalling', 'signaling'],
  ['catalogue', 'catalog'],
  ['manoeuvre', 'maneuver'],
  ['manoeuvred', 'maneuvered'],
  ['manoeuvring', 'maneuvering'],
  ['aeroplane', 'airplane'],
  ['aluminium', 'aluminum'],
  ['grey', 'gray'],
  ['tyres', 'tires'],
  ['programme', 'program'],
  ['judgement', 'judgment'],
])('%s and %s are one word', (british, american) => {
  expect(oneSpelling(british)).toBe(oneSpelling(american));
});

/* Words of English that a careless rule would make one; from memory. */
test.each([
  ['four', 'for'],
  ['hour', 'hor'],
  ['tour', 'tor'],
  ['filling', 'filing'],
  ['pulled', 'puled'],
  ['rise', 'rize'],
  ['fire', 'fier'],
  ['more', 'moer'],
])('%s and %s stay apart', (a, b) => {
  expect(oneSpelling(a)).not.toBe(oneSpelling(b));
});

/* English numerals, from memory. */
test.each([
  ['0', 'zero'],
  ['8', 'eight'],
  ['13', 'thirteen'],
  ['15', 'fifteen'],
  ['40', 'forty'],
  ['80', 'eighty'],
  ['85', 'eighty-five'],
  ['100', 'one hundred'],
  ['120', 'one hundred and twenty'],
  ['120', 'one hundred twenty'],
  ['1000', 'one thousand'],
  ['2500', 'two thousand five hundred'],
  ['10 000', 'ten thousand'],
  ['18,000', 'eighteen thousand'],
  ['500', '5 hundred'],
  ['412305', 'four hundred and twelve thousand three hundred and five'],
  ['80', 'eight zero'],
  ['99', 'niner niner'],
  ['V1', 'vee one'],
  ['V1', 'v 1'],
  ['V1', 'V one'],
  ['٨٥', '85'],
  ['８５', 'eighty five'],
])('%s is said %s', (digits, words) => {
  expect(foldWords(words).whole).toBe(foldWords(digits).whole);
  expect(isRight(words, digits)).toBe(true);
  expect(isRight(digits, words)).toBe(true);
});

test('every whole number below a million is read back from its words', () => {
  for (let n = 0; n < 1_000_000; n += n < 2100 ? 1 : 997)
    expect(foldWords(numberWords(String(n)).join(' ')).whole, String(n)).toBe(String(n));
  expect(numberWords('1000000')).toEqual([]);
});

test.each([
  ['Eight', 'Eighty'],
  ['Eighty', 'Eight'],
  ['Seventeen', 'Seventy'],
  ['Sixteen', 'Sixty'],
  ['86', '85'],
  ['V2', 'V1'],
  ['Flaps ten', 'Flaps two'],
])('another number is no misspelling: %s for %s', (said, right) => {
  expect(isRight(said, right)).toBe(false);
});

/* F. J. Damerau, CACM 7(3), 1964: one letter put in, left out, another, or two neighbours exchanged. */
test.each([
  ['rotate', 'rottate', true],
  ['rotate', 'roate', true],
  ['rotate', 'rotade', true],
  ['rotate', 'rotaet', true],
  ['rotate', 'rotate', false],
  ['rotate', 'rtoaet', false],
  ['rotate', 'roateu', false],
  ['rotate', 'tator', false],
  ['ab', 'ba', true],
  ['abc', 'cba', false],
  ['', 'a', true],
  ['😀b', '😁b', true],
])('%s and %s are one letter apart: %s', (a, b, is) => {
  expect(isOneApart(a, b)).toBe(is);
  expect(isOneApart(b, a)).toBe(is);
});

describe('what is forgiven', () => {
  test.each([
    ['GEAR UP!', 'Gear up'],
    ['gear  up', 'Gear up'],
    ['gearup', 'Gear up'],
    ['Takeoff', 'Take-off'],
    ['take off', 'Take-off'],
    ['go-around flaps', 'Go around, flaps'],
    ['Posative climb', 'Positive climb'],
    ['takeof thrust set', 'Take-off thrust set'],
    ['eigthy-five', 'Eighty-five'],
    ['eigthy five', '85'],
    ['Set & compared', 'Set and compared'],
    ['Lining up and waiting', 'Lining up & waiting'],
    ['Hot brakes checklist', 'Hot brakes list'],
    ['hot brakes check list', 'Hot brakes list'],
    ['Hot brakes list', 'Hot brakes check-list'],
    ['92.5', 'Ninety-two point five'],
    ['ninety two decimal five', '92,5'],
    ['1,013', 'one thousand thirteen'],
    ['minus 5', '−5'],
    ['Ive got it', 'I’ve got it'],
    ['Hohe klar', 'Höhe klar'],
    ['Hoehe klar', 'Höhe klar'],
    ['TUER ZU', 'Tür zu'],
    ['Oel gepruft', 'O\u0308l geprüft'],
    ['gear leveer up', 'Gear lever up'],
    ['Psoitive climb', 'Positive climb'],
    ['Pisitive climb', 'Positive climb'],
    ['V2 plus ten', 'V2 + 10'],
    ['v2+10', 'V2 + 10'],
    ['V2 minus ten', 'V2 − 10'],
    ['trim −2', 'Trim -2'],
    ['less than 80 kt', '< 80 kt'],
    ['flaps half', 'Flaps ½'],
    ['passing 10,000', 'Passing one zero thousand'],
    ['passing 10000', 'Passing one zero thousand'],
    ['climbing 10500', 'Climbing one zero thousand five hundred'],
    ['one eight thousand', '18000'],
    ['flight level one zero zero', 'Flight level 1 0 0'],
    ['١٫٥', '1.5'],
    ['1·5', '1.5'],
    ['٨٠', '80'],
    ['0,750', '0.750'],
    ['GROSSE KLAPPE', 'große Klappe'],
    ['mise a feu', 'Mise à feu'],
    ['İSTANBUL', 'istanbul'],
    ['Ψηλα', 'ψηλά'],
    ['ירוק', 'יָרוֹק'],
    ['اكتمل', 'اِكْتَمَلَ'],
  ])('%s for %s', (said, right) => {
    expect(isRight(said, right)).toBe(true);
  });

  test('a misspelt word is told', () => {
    expect(matchWords('Posative climb', 'Positive climb', [], [])).toEqual({
      right: true,
      misspelt: ['Posative'],
      missing: [],
      extra: [],
    });
  });

  test('the accepted wordings', () => {
    expect(isRight('engines stabel', 'Stable', [], ['Engines stable'])).toBe(true);
    expect(isRight('engines', 'Stable', [], ['Engines stable'])).toBe(false);
  });
});

describe('what is not', () => {
  test('short words, two letters, words of another callout, and another callout itself', () => {
    expect(isRight('Gaer up', 'Gear up')).toBe(false);
    expect(isRight('Posatve climb', 'Positive climb')).toBe(false);
    expect(isRight('Flats one', 'Flaps one')).toBe(true);
    expect(isRight('Flats one', 'Flaps one', ['Flats set'])).toBe(false);
    expect(matchWords('flaps zero', 'Flaps one', [], ['Flaps zero'])).toMatchObject({
      right: false,
      other: 'Flaps zero',
      missing: ['one'],
      extra: ['zero'],
    });
    expect(matchWords('Stabel', 'Stopping', [], ['Stable'])).toMatchObject({ right: false, other: 'Stable' });
  });

  test('a number with another point, without it, or with another sign', () => {
    for (const [said, right] of [
      ['15', '1.5'],
      ['1.5', '15'],
      ['925', '92.5'],
      ['5', '-5'],
      ['one point five zero', '1.5'],
      ['V2 - 10', 'V2 + 10'],
      ['V2 10', 'V2 + 10'],
      ['V2 10', 'V2 - 10'],
      ['V2-10', 'V2 + 10'],
      ['> 80 kt', '< 80 kt'],
      ['flaps 12', 'Flaps ½'],
      ['flaps 12', 'Flaps 1/2'],
      ['passing ten', 'Passing one zero thousand'],
      ['climbing 1500', 'Climbing one zero thousand five hundred'],
      ['20', 'Two zero thousand'],
      ['١٫٥', '15'],
      ['flaps 1·5', 'Flaps 15'],
    ] as const)
      expect(isRight(said, right), `${said} for ${right}`).toBe(false);
  });

  test('a word of what is done in the deck is no misspelling of another one, only of its own singular or past', () => {
    const words = new Set(['lever', 'nose', 'secure', 'gauge']);
    const isSo = (said: string, right: string) => matchWords(said, right, [], [], words).right;
    expect(isSo('Lever ahead', 'Level ahead')).toBe(false);
    expect(isSo('Nose height', 'Noise height')).toBe(false);
    expect(isSo('Levek ahead', 'Level ahead')).toBe(true);
    expect(isSo('Secure', 'Secured')).toBe(true);
    expect(isSo('Gauge steady', 'Gauges steady')).toBe(true);
    expect(isRight('Lever ahead', 'Level ahead')).toBe(true);
  });

  test('missing and extra words are named as they were written', () => {
    expect(matchWords('speed, flaps 1 set', 'Speed checked, flaps one', [], [])).toMatchObject({
      missing: ['checked'],
      extra: ['set'],
    });
    // Nothing hides in a word beside it.
    expect(isRight('Flaps', 'Flaps a')).toBe(false);
    expect(isRight('Flaps a', 'Flaps')).toBe(false);
    expect(isRight('up', 'Gear up')).toBe(false);
    expect(isRight('', 'Gear up')).toBe(false);
  });

  test('another letter where a word begins is another word', () => {
    for (const [said, right] of [
      ['Blocked', 'Locked'],
      ['Asymmetric', 'Symmetric'],
      ['Oncoming', 'Incoming'],
      ['Eject', 'Reject'],
      ['Выключено', 'Включено'],
      ['wyłączone', 'Włączone'],
      ['išjungtas', 'įjungtas'],
      ['이번 엔진 화재', '일번 엔진 화재'],
    ] as const) {
      expect(isRight(said, right), `${said} for ${right}`).toBe(false);
      expect(isRight(right, said), `${right} for ${said}`).toBe(false);
    }
  });

  test('vowel signs and marks that make another letter are no accents; a sign of a language without spaces counts', () => {
    expect(isRight('की', 'का')).toBe(false);
    expect(isRight('かき', 'がき')).toBe(false);
    expect(isRight('離陸推力設定中', '離陸推力設定済')).toBe(false);
    expect(isRight('離陸 推力', '離陸推力')).toBe(true);
  });

  test('of a text without a letter its signs count', () => {
    expect(isRight('!!', '!!')).toBe(true);
    expect(isRight('?', '!!')).toBe(false);
    expect(isRight('', '')).toBe(true);
  });
});

test('texts that hold the words whole', () => {
  expect(isSaidIn('V one', 'Passing V1 141 kt')).toBe(true);
  expect(isSaidIn('take off', 'Setting take-off thrust')).toBe(true);
  expect(isSaidIn('Set', 'Reset the timer')).toBe(false);
  expect(isSaidIn('', 'Anything')).toBe(false);
  expect(areAlike('Flaps one', 'Flaps 1')).toBe(true);
  expect(areAlike('Flaps one', 'Flaps two')).toBe(false);
});
