import { describe, expect, test } from 'vitest';
import { knownOf } from '../../../../src/draft/paste/known.ts';
import { recognise } from '../../../../src/draft/paste/recognise.ts';
import type { Fields } from '../../../../src/draft/paste/types.ts';
import { readRows } from '../../../../src/exchange/rows.ts';

/** Invented. */
const DECK = knownOf({
  crew: [{ id: 'captain', label: 'Captain' }],
  limits: [{ id: 'gate', ask: 'Gate height' }],
  sources: [
    { id: 'som', title: 'Operations manual' },
    { id: 'crew', title: 'Crew manual' },
  ],
  conditions: [{ id: 'fireStays', label: 'Engine fire', yes: 'The fire warning stays on', no: 'No fire' }],
  day: [{ id: 'v1', label: 'V1' }],
});

const read = (text: string, known = DECK) => recognise(readRows(text), known);
const taken = (text: string) => read(text).readings.filter(({ skip }) => skip === null);
const fields = (text: string): Fields[] => taken(text).map((reading) => reading.fields);
const skipped = (text: string): [number, string | null][] =>
  read(text)
    .readings.filter(({ skip }) => skip !== null)
    .map(({ row, skip }) => [row, skip]);

describe('a line says who, what and when', () => {
  test.each<[string, Fields]>([
    ['PF: Thrust levers — set take-off thrust', { by: 'PF', do: 'Thrust levers — set take-off thrust' }],
    ['PM calls "One hundred"', { by: 'PM', say: 'One hundred' }],
    ['"Checked" (PF)', { by: 'PF', say: 'Checked' }],
    ['[PM] Timer – start', { by: 'PM', do: 'Timer – start' }],
    ['PM – start the timer', { by: 'PM', do: 'Start the timer' }],
    ['Start the timer (PM).', { by: 'PM', do: 'Start the timer' }],
    ['Landing lights ........ ON ........ PM', { by: 'PM', do: 'Landing lights – ON' }],
    ['PNF: gear lever up', { by: 'PM', do: 'Gear lever up' }],
    ['PF & PM: Compare headings', { by: 'both', do: 'Compare headings' }],
    ['PF/PM: Compare headings', { by: 'either', do: 'Compare headings' }],
    ['Capt: Set the parking brake', { by: 'captain', do: 'Set the parking brake' }],
    ['PF set heading mode', { by: 'PF', do: 'Set heading mode' }],
    ['Both engines stable', { do: 'Both engines stable' }],
    ['Flaps: “Take-off set”', { do: 'Flaps', say: 'Take-off set' }],
    ['PM: Set flaps and call “Flaps set”', { by: 'PM', do: 'Set flaps', say: 'Flaps set' }],
    ['PM: Callout: Positive climb', { by: 'PM', say: 'Positive climb' }],
    ['PF says Gear up', { by: 'PF', say: 'Gear up' }],
    ['PF calls for the after take-off list', { by: 'PF', do: 'Calls for the after take-off list' }],
    ['Press the "TOGA" button and wait', { do: 'Press the "TOGA" button and wait' }],
    ["Don't touch the pilots' seats", { do: "Don't touch the pilots' seats" }],
    ['At 400 ft: select heading', { do: 'Select heading', cue: 'At 400 ft', cueInWords: true }],
    [
      'PM: When engines stable, start the timer',
      { by: 'PM', do: 'Start the timer', cue: 'engines stable', cueInWords: true },
    ],
    ['PM calls "Eighty" at eighty knots', { by: 'PM', say: 'Eighty', cue: 'at eighty knots', cueInWords: true }],
  ])('%s', (line, expected) => {
    expect(fields(line)).toEqual([expected]);
  });

  test.each([
    '"Go"',
    '“Go”',
    '„Go“',
    '„Go”',
    '”Go”',
    '«Go»',
    '« Go »',
    '»Go«',
    '‹Go›',
    '‘Go’',
    "'Go'",
    '‚Go‘',
    '`Go´',
    "``Go''",
    '＂Go＂',
    '「Go」',
  ])('quotation marks %s', (quoted) => {
    expect(fields(`PM: ${quoted}`)).toEqual([{ by: 'PM', say: 'Go' }]);
  });

  test('a response answers the callout before it', () => {
    const [call, answer] = taken('PM calls "One hundred"\nPF responds "Checked"');
    expect([call?.responds, answer?.responds]).toEqual([undefined, true]);
  });

  test('what cannot be told apart is left in the words, and said', () => {
    const [two, pair] = taken('PF says “Gear up”, PM moves the lever\nPM calls “V one”, “Rotate”');
    expect(two?.fields).toEqual({ by: 'PF', do: 'Says “Gear up”, PM moves the lever' });
    expect(two?.notes).toEqual([expect.stringContaining('Two of the crew')]);
    expect(pair?.fields.do).toBe('Calls “V one”, “Rotate”');
    expect(pair?.notes).toEqual([expect.stringContaining('More than one callout')]);
  });
});

describe('numbers and signs before an item', () => {
  test.each([
    '1. ',
    '1) ',
    '(1) ',
    '1.2.3. ',
    'a) ',
    '(b) ',
    'iv. ',
    '(ii) ',
    '– ',
    '- ',
    '— ',
    '• ',
    '•\t',
    '1.\t',
    '● ',
    '▪ ',
    '* ',
    '☐ ',
    '[ ] ',
    'Step 4: ',
    '7a. ',
    '7A) ',
    '(7) ',
    '(7a) ',
    '7) a) ',
    '7.a) ',
    '(7)(b) ',
    '\uf0b7\t',
    '1. • ',
  ])('%j', (marker) => {
    expect(fields(`${marker}Gear up\n${marker}Flaps zero`)).toEqual([{ do: 'Gear up' }, { do: 'Flaps zero' }]);
  });

  test('bare numbers where the whole list has them; else they are part of the words', () => {
    expect(fields('1 Gear up\n2 Flaps zero\n3 Lights off').map((one) => one.do)).toEqual([
      'Gear up',
      'Flaps zero',
      'Lights off',
    ]);
    expect(fields('400 ft gear up\n200 ft flaps zero').map((one) => one.do)).toEqual([
      '400 ft gear up',
      '200 ft flaps zero',
    ]);
  });

  test.each<[string, string[]]>([
    ['6. PM: "V one"\n7. PF: Rotate\n7a. PF: "Gear up"\n8. PM: Gear up', ['V one', 'Rotate', 'Gear up', 'Gear up']],
    ['7. PF: Rotate\n7.1 PF: "Gear up"\n7.2 PM: Gear up\n8. PF: Climb', ['Rotate', 'Gear up', 'Gear up', 'Climb']],
    ['7. PF: Rotate\n7a PF: "Gear up"\n7b PM: Gear up\n8a PF: Climb', ['Rotate', 'Gear up', 'Gear up', 'Climb']],
    ['7.1 Rotate\n7.2 Gear up\n7.3 Climb', ['Rotate', 'Gear up', 'Climb']],
    ['7 Rotate\n8 Gear up\n9 Climb', ['Rotate', 'Gear up', 'Climb']],
    ['1 Rotate\n1a Gear up\n2 Climb', ['Rotate', 'Gear up', 'Climb']],
  ])('parts of a number, and a list that does not begin at 1: %j', (text, words) => {
    expect(fields(text).map((one) => one.say ?? one.do)).toEqual(words);
  });

  test('a number that belongs to the words stays', () => {
    expect(fields('1.5 EPR set\n-5 °C checked').map((one) => one.do)).toEqual(['1.5 EPR set', '-5 °C checked']);
    expect(fields('1. Thrust levers\n1.5 EPR set\n2. Timer').map((one) => one.do)).toEqual([
      'Thrust levers 1.5 EPR set',
      'Timer',
    ]);
  });
});

describe('what pages and programs leave in a list', () => {
  test('heads, feet and page numbers, and an item that goes on behind them', () => {
    const text = [
      'TAKE-OFF ROLL',
      'Calder Coast Air   Crew manual   Rev 7   Page 12',
      '',
      '1. PF: Thrust levers to the stabilising',
      '- 12 -',
      'Calder Coast Air   Crew manual   Rev 7   Page 13',
      '   setting',
      '2. PM: Start the timer',
      'Page 13 of 40',
    ].join('\n');
    expect(fields(text)).toEqual([
      { by: 'PF', do: 'Thrust levers to the stabilising setting' },
      { by: 'PM', do: 'Start the timer' },
    ]);
    expect(read(text).title).toBe('TAKE-OFF ROLL');
    expect(skipped(text)).toEqual([
      [1, 'It stands above the list: a heading.'],
      [2, 'The head or foot of a page.'],
      [5, 'A page number.'],
      [6, 'The head or foot of a page.'],
      [9, 'A page number.'],
    ]);
  });

  test('a callout that comes again is no head of a page', () => {
    expect(fields('1. PM: "One hundred"\n2. PF: "Checked"\n3. PM: "V one"\n4. PF: "Checked"')).toHaveLength(4);
  });

  test('broken lines: in a numbered list whatever has no number, else what begins small', () => {
    expect(fields('1. Thrust levers\n   Set take-off thrust\n2. Timer')).toEqual([
      { do: 'Thrust levers Set take-off thrust' },
      { do: 'Timer' },
    ]);
    expect(fields('Gear up\nFlaps zero and\nlights off')).toEqual([
      { do: 'Gear up' },
      { do: 'Flaps zero and lights off' },
    ]);
    expect(fields('gear up\nflaps zero\nlights off')).toHaveLength(3);
  });

  test('what begins anew behind a full stop or a callout is a row of its own', () => {
    expect(fields('1. PF: Rotate\n2. PF: "Gear up"\nTarn 46 crew manual\n3. PM: Gear up')).toEqual([
      { by: 'PF', do: 'Rotate' },
      { by: 'PF', say: 'Gear up' },
      { do: 'Tarn 46 crew manual' },
      { by: 'PM', do: 'Gear up' },
    ]);
    expect(fields('1. Set thrust.\nTarn 46 crew manual\n2. Timer').map((one) => one.do)).toEqual([
      'Set thrust.',
      'Tarn 46 crew manual',
      'Timer',
    ]);
    // The marks are not closed yet, or it goes on small.
    expect(fields('1. PF: "Gear\nUp"\n2. Timer')).toEqual([{ by: 'PF', say: 'Gear Up' }, { do: 'Timer' }]);
    expect(fields('1. PM: "V one"\nat 104 kt\n2. Timer')).toHaveLength(2);
  });

  test('in a numbered list a callout of its own line is a step of its own', () => {
    expect(fields('1. PF: Set thrust\nPM: "Thrust set"\n2. PF: Hold')).toHaveLength(3);
  });

  test('soft hyphens go, hard ones stay and are told', () => {
    expect(fields('Sta\u00adbi\u00adliser trim\nAlti\u00ad\nmeters set')).toEqual([
      { do: 'Stabiliser trim' },
      { do: 'Altimeters set' },
    ]);
    const [one] = taken('1. Set the take-\noff flaps\n2. Timer');
    expect(one?.fields.do).toBe('Set the take-off flaps');
    expect(one?.notes).toEqual([expect.stringContaining('hyphen')]);
  });

  test('double, narrow and no-break spaces, tabs, invisible characters', () => {
    expect(fields('Gear\u00a0\u202f  up\u200b\nFlaps \t zero\nTimer')).toEqual([
      { do: 'Gear up' },
      { do: 'Flaps zero' },
      { do: 'Timer' },
    ]);
  });

  test('line ends of Windows, of old machines and mixed', () => {
    expect(fields('1. Gear up\r\n2. Flaps zero\r3. Lights off\n4. Timer')).toHaveLength(4);
  });
});

describe('a table with headings', () => {
  test('each column in its field, references found', () => {
    const text = [
      'No,Who,Do,Say,Trigger,Limit,Reason,Common error,Panel,Condition,Ref,Critical',
      '1,PF,Set thrust,,V1,Gate height,Because,Too soon,Overhead,Engine fire,Crew manual 4.1,x',
      '2,captain,,"""Stop""",,gate,,,,not engine fire,som#3.2,',
    ].join('\r\n');
    expect(fields(text)).toEqual([
      {
        by: 'PF',
        do: 'Set thrust',
        cue: 'V1',
        limit: 'gate',
        why: 'Because',
        slip: 'Too soon',
        where: 'Overhead',
        if: 'fireStays',
        source: 'crew#4.1',
        critical: true,
      },
      { by: 'captain', say: 'Stop', limit: 'gate', if: '!fireStays', source: 'som#3.2' },
    ]);
  });

  test('what the deck does not have is kept as it stands and said', () => {
    const [one] = taken('crew,action,limit,source,condition\nLoadmaster,Close doors,85 kt,FB 3,in rain');
    expect(one?.fields).toEqual({
      by: 'Loadmaster',
      do: 'Close doors',
      limit: '85 kt',
      source: 'FB 3',
      cue: 'in rain',
    });
    expect(one?.notes).toHaveLength(4);
  });

  test('an action column alone is read like a line', () => {
    expect(fields('Step\tCrew\tAction\n1\tPM\t"One hundred"\n2\tPF\t• Hold (PF)')).toEqual([
      { by: 'PM', say: 'One hundred' },
      { by: 'PF', do: 'Hold' },
    ]);
  });

  test('rows above, headings again, blank rows, rows without a step; columns that are not read', () => {
    const text = 'Take-off roll,,\ncrew,action,colour\nPF,Set,red\n,,\ncrew,action,colour\nPM,,blue';
    expect(skipped(text)).toEqual([
      [1, 'It stands above the headings.'],
      [2, 'The headings of the columns.'],
      [5, 'The headings again.'],
      [6, 'It has no action and no callout.'],
    ]);
    expect(read(text)).toMatchObject({
      title: 'Take-off roll',
      notes: [expect.stringContaining('“colour” is not read')],
    });
  });

  test('without headings the crew’s column is found; of all other words none is lost', () => {
    expect(fields('1.\tPF\tLanding lights\tON\n2.\tPM\tStart the timer')).toEqual([
      { by: 'PF', do: 'Landing lights – ON' },
      { by: 'PM', do: 'Start the timer' },
    ]);
  });
});

describe('a table with a column for each pilot', () => {
  const lanes = (text: string) =>
    taken(text).map(({ fields: { by, do: action, say }, lane }) => [by, action ?? say, lane]);

  test('each cell is a step of its column; a blank row or a common one begins another section', () => {
    expect(
      lanes('PF\tPM\nSet thrust\tCheck N1\n\t"One hundred"\n\t\n"Checked"\t\nBrakes off\tBrakes off\nHold\tTimer'),
    ).toEqual([
      ['PF', 'Set thrust', { section: 0, column: 0 }],
      ['PM', 'Check N1', { section: 0, column: 1 }],
      ['PM', 'One hundred', { section: 0, column: 1 }],
      ['PF', 'Checked', { section: 1, column: 0 }],
      ['both', 'Brakes off', null],
      ['PF', 'Hold', { section: 2, column: 0 }],
      ['PM', 'Timer', { section: 2, column: 1 }],
    ]);
  });

  test('numbered lines of a cell are steps of their own; other columns go with both cells', () => {
    const text = 'Cue;Pilot flying;Pilot monitoring\n400 ft;"1. Select heading\n2. Call for climb thrust";Set it';
    expect(fields(text)).toEqual([
      { by: 'PF', do: 'Select heading', cue: '400 ft' },
      { by: 'PF', do: 'Call for climb thrust', cue: '400 ft' },
      { by: 'PM', do: 'Set it', cue: '400 ft' },
    ]);
  });
});

describe('what is no list', () => {
  test('a line too long for a step is left out and said; the others are read', () => {
    const text = `Gear up\n${'and so on '.repeat(120)}\nFlaps zero`;
    expect(skipped(text)).toEqual([[2, expect.stringContaining('longer than 1000 letters')]]);
    expect(fields(text)).toEqual([{ do: 'Gear up' }, { do: 'Flaps zero' }]);
  });

  test('a table likewise', () => {
    const text = `crew,action\nPF,"${'x'.repeat(1001)}"\nPM,Timer`;
    expect(skipped(text).map(([row]) => row)).toEqual([1, 2]);
    expect(fields(text)).toEqual([{ by: 'PM', do: 'Timer' }]);
  });

  test.each([
    ['dots and spaces', '. '.repeat(490)],
    ['dots', `a${'.'.repeat(990)}`],
    ['spaces and a comma', `${' ,'.repeat(490)}x`],
    ['words that join', `${'and '.repeat(240)}"x"`],
    ['opening marks', '“'.repeat(990)],
    ['single marks', "' ".repeat(490)],
    ['hyphens', '-'.repeat(990)],
    ['brackets', '('.repeat(990)],
    ['numbers', '1.'.repeat(490)],
    ['verbs of speech', `PF ${'calls '.repeat(160)}`],
  ])('hundreds of lines of %s are read, none is lost', (_, line) => {
    const { readings } = recognise(readRows(`${line}\n\n`.repeat(200)), DECK);
    expect(readings.map(({ text }) => text.replaceAll(/\s/g, '')).join('')).toContain(line.replaceAll(/\s/g, ''));
  });
});
