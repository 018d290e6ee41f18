import { describe, expect, test } from 'vitest';
import { MOST_LETTERS, MOST_ROWS, readRows } from '../../../src/exchange/rows.ts';
import { writeRows } from '../../../src/exchange/rows-out.ts';

const CRLF = '\r\n';

/** The examples of RFC 4180, section 2, by number; each is said to be a table, since its words tell nothing. */
describe('RFC 4180', () => {
  const table = (text: string) => readRows(text, 'table').rows.filter((row) => row.some((cell) => cell !== ''));

  test('1. records on lines of their own, CRLF', () => {
    expect(table(`aaa,bbb,ccc${CRLF}zzz,yyy,xxx${CRLF}`)).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });

  test('2. the last record with or without a line break', () => {
    expect(table(`aaa,bbb,ccc${CRLF}zzz,yyy,xxx`)).toEqual(table(`aaa,bbb,ccc${CRLF}zzz,yyy,xxx${CRLF}`));
  });

  test('3. a header line', () => {
    expect(readRows(`crew,action,callout${CRLF}PF,set,`).rows).toEqual([
      ['crew', 'action', 'callout'],
      ['PF', 'set', ''],
    ]);
  });

  test('4. spaces are part of a field', () => {
    expect(table('aaa, bbb ,ccc')).toEqual([['aaa', ' bbb ', 'ccc']]);
  });

  test('5. fields in double quotes or not', () => {
    expect(table(`"aaa","bbb","ccc"${CRLF}zzz,yyy,xxx`)).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });

  test('6. line breaks, double quotes and commas within quotes', () => {
    expect(table(`"aaa","b ${CRLF}bb","c,c"${CRLF}zzz,yyy,xxx`)).toEqual([
      ['aaa', 'b \nbb', 'c,c'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });

  test('7. a double quote is written twice', () => {
    expect(table('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });

  test('what is written is CSV of that kind', () => {
    expect(
      writeRows([
        ['a', 'b"b', 'c,c'],
        ['d\ne', ' f', ''],
      ]),
    ).toBe(`a,"b""b","c,c"${CRLF}"d\ne"," f",${CRLF}`);
  });
});

describe('list or table', () => {
  test.each([
    ['a spreadsheet’s rows', 'PF\tThrust set\nPM\tTimer', 'table'],
    ['numbers with a tab behind, as a word processor copies them', '1.\tThrust set\n2.\tTimer\n3.\tLights', 'list'],
    ['bullets with a tab behind', '•\tThrust set\n•\tTimer', 'list'],
    ['headings and commas', 'crew,action\nPF,Thrust set', 'table'],
    ['headings and semicolons', 'Crew;Action;Callout\nPF;Thrust set;', 'table'],
    ['the crew and a comma', 'PF,Thrust set\nPM,Timer\nPF,Brakes', 'table'],
    ['sentences with commas', 'Thrust levers, set\nTimer, start\nLights, on', 'list'],
    ['one line with a tab among many', 'Thrust set\nTimer\tstart\nLights\nBrakes', 'list'],
    ['nothing', '', 'list'],
  ])('%s', (_, text, kind) => {
    expect(readRows(text).kind).toBe(kind);
  });

  test('the author knows better', () => {
    expect(readRows('crew,action\nPF,Thrust set', 'list').rows).toEqual([['crew,action'], ['PF,Thrust set']]);
    expect(readRows('Thrust levers, set\nTimer, start', 'table').rows[1]).toEqual(['Timer', ' start']);
  });
});

describe('what comes from other machines', () => {
  test('line ends of every kind, mixed, and a byte order mark', () => {
    expect(readRows('\ufeffone\r\ntwo\rthree\nfour\u2028five').rows.flat()).toEqual([
      'one',
      'two',
      'three',
      'four',
      'five',
    ]);
  });

  test('blank lines keep their numbers', () => {
    expect(readRows('one\n\nthree').rows).toEqual([['one'], [''], ['three']]);
  });

  test('a page ends at a form feed', () => {
    expect(readRows('one\ftwo').rows.flat().join('')).toBe('one\ftwo');
  });

  test('letters that could not be read are told', () => {
    const { findings } = readRows('Thrust\nCallouts \ufffdOne\ufffd');
    expect(findings).toEqual([{ severity: 'warning', row: 2, message: expect.stringContaining('UTF-8') }]);
  });

  test('quotation marks typed into cells of a spreadsheet stay; those around a cell of several lines go', () => {
    expect(readRows('PF\tPM\n"Checked"\t"One hundred" (PM)\n"first\nsecond ""x"""\tb').rows).toEqual([
      ['PF', 'PM'],
      ['"Checked"', '"One hundred" (PM)'],
      ['first\nsecond "x"', 'b'],
    ]);
  });
});

describe('bad input', () => {
  test('five megabytes are refused at once', () => {
    const { rows, findings } = readRows('PF: set thrust\n'.repeat(350_000));
    expect(rows).toEqual([]);
    expect(findings).toEqual([
      {
        severity: 'error',
        row: null,
        message: `The text has 5 250 000 characters; at most 500 000 are read. Take one procedure at a time.`,
      },
    ]);
    expect(MOST_LETTERS).toBe(500_000);
  });

  test('more rows than are read', () => {
    expect(readRows('a\n'.repeat(MOST_ROWS - 1)).findings).toEqual([]);
    expect(readRows('a\n'.repeat(MOST_ROWS)).findings[0]?.message).toContain('2 001 rows; at most 2 000');
  });

  test('a quotation mark that is never closed has its row', () => {
    const { rows, findings } = readRows('crew,action\nPF,set\nPM,"start\nPF,brakes');
    expect(rows).toEqual([]);
    expect(findings).toEqual([{ severity: 'error', row: 3, message: expect.stringContaining('never closed') }]);
  });

  test('words behind a closing mark have their row', () => {
    expect(readRows('crew,action\nPF,"set" thrust\nPM,start').findings).toEqual([
      { severity: 'error', row: 2, message: expect.stringContaining('Row 2 has words behind') },
    ]);
  });

  test('in what a spreadsheet copied a lone mark is read as it stands', () => {
    const { rows, findings } = readRows('crew\taction\nPF\t"set\nPM\tstart');
    expect(rows).toEqual([
      ['crew', 'action'],
      ['PF', '"set'],
      ['PM', 'start'],
    ]);
    expect(findings).toEqual([{ severity: 'warning', row: 2, message: expect.stringContaining('as they stand') }]);
  });
});

/** OWASP, "CSV Injection": cells beginning with = + - @ tab CR (LF, and the wide forms) get an apostrophe before. */
describe('no spreadsheet runs what is written', () => {
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx', '\n=1', '＝1', '=HYPERLINK("x")\nmore', "'=1", "''-1"])(
    '%j',
    (cell) => {
      const text = writeRows([
        ['action', 'why'],
        ['a', cell],
      ]);
      const written = /^action,why\r\na,"((?:[^"]|"")*)"\r\n$/.exec(text)?.[1];
      expect(written?.replaceAll('""', '"')).toBe(`'${cell}`);
    },
  );

  test('other apostrophes stay as they are', () => {
    expect(writeRows([["'Checked'", "don't", 'a=b']])).toBe("'Checked',don't,a=b\r\n");
  });
});
