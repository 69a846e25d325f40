import { describe, expect, test } from 'vitest';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { textOfBytes } from '../../../src/circuit/wireList/bytesText.ts';
import { colourCode } from '../../../src/circuit/wireList/colours.ts';
import { readWireList } from '../../../src/circuit/wireList/readWireList.ts';
import { partKinds } from '../../../src/parts/index.ts';

const read = (text: string, byHand = {}) => readWireList(text, 'wires.csv', 'Van', partKinds, byHand);
const latin1 = (text: string) => Uint8Array.from([...text].map((c) => c.charCodeAt(0)));

describe('lists as workshops write them', () => {
  // Invented lists; heads as spreadsheets of the three languages have them.
  const lists = [
    {
      name: 'English, comma',
      text: 'Wire No,From,To,Colour,CSA (mm2),Length (m),Remarks\nW7,S1.15,F3.1,Black/Yellow,1.5,0.9,hot side\n',
      wire: '{ id: W7, from: S1.15, to: F3.1, area: 1.5 mm², length: 0.9 m, colour: BK/YE, note: hot side }',
    },
    {
      name: 'German, semicolon, decimal comma, pins apart',
      text: 'Leitungsnr;Von;Klemme von;Nach;Klemme nach;Leitungsfarbe;Querschnitt;Länge [cm];Bemerkung\n7;-S1;15;-F3;1;sw/ge;1,5;90;heiß\n',
      wire: '{ id: W7, from: S1.15, to: F3.1, area: 1.5 mm², length: 90 cm, colour: BK/YE, note: "heiß" }',
    },
    {
      name: 'French, tab',
      text: 'Repère\tDépart\tArrivée\tCouleur\tSection (mm²)\tLongueur (m)\tObservation\nW7\tS1:15\tF3:1\tnoir et jaune\t1,5\t0,9\tchaud\n',
      wire: '{ id: W7, from: S1.15, to: F3.1, area: 1.5 mm², length: 0.9 m, colour: BK/YE, note: chaud }',
    },
    {
      name: 'gauge, a title above, units in the cells',
      text: 'Harness of the van,,,\n,,,\nfrom,to,gauge,length\nS1 15,F3/1,16,3 ft\n',
      wire: '{ from: S1.15, to: F3.1, area: 16 AWG, length: 0.9144 m }',
    },
    {
      name: 'the mark of a spreadsheet in the first line',
      text: 'sep=;\nvon;nach;farbe\nS1.15;F3.1;RDBK\n',
      wire: '{ from: S1.15, to: F3.1, colour: RD/BK }',
    },
  ];
  test.each(lists)('$name', ({ text, wire }) => {
    const { yaml, leftOut } = read(text);
    expect(leftOut).toBe(0);
    expect(
      yaml
        ?.split('\n')
        .find((l) => l.startsWith('  - '))
        ?.slice(4),
    ).toBe(wire.replace('"heiß"', 'heiß'));
  });

  test('columns named by hand, by head and by number', () => {
    const text = 'Pin A,x,Pin B\nS1.15,?,F3.1\n';
    expect(read(text).problems.map((p) => p.code)).toEqual(['column-missing']);
    expect(read(text, { from: 'Pin A', to: '3' }).yaml).toContain('- { from: S1.15, to: F3.1 }');
    expect(read('S1.15,F3.1\n', { from: '1', to: '2' }).yaml).toContain('- { from: S1.15, to: F3.1 }');
  });

  test('a column that nobody knows is told with how many cells it holds', () => {
    const { problems } = read('from,to,supplier\nS1.15,F3.1,box 4\n');
    const told = problems.find((p) => p.code === 'column-not-taken');
    expect(told?.what).toContain('`supplier`');
    expect([told?.line, told?.column]).toEqual([1, 9]);
  });
});

describe('nothing is dropped in silence', () => {
  const text = 'from,to,area,colour\nS1.15,F3.1,1.5,RD\nS1.15,,1.5,RD\nTotal,,12,\nF3.2,H1.1,thick,puce\nR1.1,R1.1,1,RD\n';
  const { yaml = '', problems, wires, leftOut } = read(text);
  test('rows that are no wires are told at their line and kept as comments', () => {
    expect([wires, leftOut]).toEqual([2, 3]);
    expect(problems.filter((p) => p.severity === 'error').map((p) => p.line)).toEqual([3, 4, 6]);
    expect(yaml).toContain('# not taken from the list: Total |  | 12 |');
  });
  test('a quantity and a colour that cannot be taken are told at their cell', () => {
    expect(problems.find((p) => p.code === 'quantity-not-taken')).toMatchObject({ line: 5, column: 11, length: 5 });
    expect(problems.find((p) => p.code === 'colour-not-known')?.what).toContain('puce');
  });
  test('parts that nobody described are boxes or points, and the circuit reads', () => {
    expect(problems.find((p) => p.code === 'part-is-box' && p.what.includes('`H1`'))?.mend[0]).toContain('`lamp`');
    expect(readCircuit(yaml, 'x', partKinds).problems.filter((p) => p.severity === 'error')).toEqual([]);
  });
  test('of hundreds of equal problems the first are told and the others counted', () => {
    const many = read(`from,to,area\n${'S1.15,F3.1,thick\n'.repeat(200)}`);
    expect(many.problems.length).toBeLessThan(80);
    expect(many.problems.some((p) => p.what.startsWith('140 more'))).toBe(true);
  });
});

describe('encodings', () => {
  test('UTF-8 with and without its mark, Latin-1, UTF-16', () => {
    const text = 'Länge;ähm’';
    expect(textOfBytes(new TextEncoder().encode(text))).toEqual({ text, encoding: 'UTF-8' });
    expect(textOfBytes(new TextEncoder().encode(`\uFEFF${text}`)).text).toBe(text);
    expect(textOfBytes(Uint8Array.from([...latin1('Länge;ähm'), 0x92]))).toEqual({ text, encoding: 'Latin-1' });
    const wide = Uint8Array.from([0xff, 0xfe, ...[...text].flatMap((c) => [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8])]);
    expect(textOfBytes(wide)).toEqual({ text, encoding: 'UTF-16' });
    const big = Uint8Array.from([0xfe, 0xff, ...[...text].flatMap((c) => [c.charCodeAt(0) >> 8, c.charCodeAt(0) & 255])]);
    expect(textOfBytes(big).text).toBe(text);
  });
  test('how a text was saved is told by its bytes, and each of its signs is read as it was meant', () => {
    const read = (...bytes: readonly number[]) => textOfBytes(Uint8Array.from(bytes));
    expect(read(0xff, 0xfe, 0x41, 0x00, 0xac, 0x20)).toEqual({ text: 'A€', encoding: 'UTF-16' });
    expect(read(0xfe, 0xff, 0x00, 0x41, 0x20, 0xac)).toEqual({ text: 'A€', encoding: 'UTF-16' });
    expect(read(0xef, 0xbb, 0xbf, 0x41)).toEqual({ text: 'A', encoding: 'UTF-8' });
    expect(read(0x41, 0xce, 0xa9)).toEqual({ text: 'AΩ', encoding: 'UTF-8' });
    expect(read(0x80, 0x9f, 0xa0, 0xb0, 0x7f)).toEqual({ text: '€Ÿ\u00a0°\u007f', encoding: 'Latin-1' });
    // The first sign behind the halves of pairs, and the last before them (Unicode, table 3-7: ED is followed by 80 to 9F).
    expect(read(0xee, 0x80, 0x80)).toEqual({ text: '\ue000', encoding: 'UTF-8' });
    expect(read(0xed, 0x9f, 0xbf)).toEqual({ text: '\ud7ff', encoding: 'UTF-8' });
    // Broken off in the midst of a sign, at the very end and before it.
    for (const bytes of [
      [0x41, 0xce],
      [0xe2, 0x82],
      [0xe2, 0x41, 0x82],
      [0xc1, 0x81],
    ])
      expect(read(...bytes).encoding).toBe('Latin-1');
    expect(read()).toEqual({ text: '', encoding: 'UTF-8' });
  });
  test('every sign of every plane survives, and bytes that are no UTF-8 do not pass for it', () => {
    for (const sign of ['\u0000', '\u007f', '\u0080', '\u07ff', '\u0800', '\ud7ff', '\uffff', '\u{10000}', '\u{10ffff}'])
      expect(textOfBytes(new TextEncoder().encode(sign))).toEqual({ text: sign, encoding: 'UTF-8' });
    for (const bytes of [[0xc0, 0x80], [0xed, 0xa0, 0x80], [0xf4, 0x90, 0x80, 0x80], [0xe0, 0x9f, 0xbf], [0xff], [0xc3]])
      expect(textOfBytes(Uint8Array.from(bytes)).encoding).toBe('Latin-1');
  });
});

test.each([
  ['rot/schwarz', 'RD/BK'],
  ['rtsw', 'RD/BK'],
  ['red with black stripe', 'RD/BK'],
  ['rouge-noir', 'RD/BK'],
  ['rotschwarz', 'RD/BK'],
  ['GNYE', 'GNYE'],
  ['grün', 'GN'],
  ['türkis', 'TQ'],
  ['B', undefined],
  ['mauve with spots', undefined],
])('the colour %s is %s', (written, code) => expect(colourCode(written)).toBe(code));

// Against the decoder of the platform, which refuses what the standard refuses (Unicode 15, section 3.9, table 3-7: well-formed byte sequences; from memory).
test('what passes for UTF-8 and what it says is what a general decoder finds, over every run of two and every edge of three and four bytes', () => {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const expected = (bytes: Uint8Array) => {
    try {
      return decoder.decode(bytes);
    } catch {
      return undefined;
    }
  };
  const wrong: string[] = [];
  const check = (...list: readonly number[]) => {
    const bytes = Uint8Array.from(list);
    const { text, encoding } = textOfBytes(bytes);
    if ((encoding === 'UTF-8' ? text : undefined) !== expected(bytes)) wrong.push(list.map((b) => b.toString(16)).join(' '));
  };
  for (let a = 0; a < 256; a++) {
    check(a);
    for (let b = 0; b < 256; b++) if (!((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff))) check(a, b);
  }
  const edges = [0x00, 0x41, 0x7f, 0x80, 0x8f, 0x90, 0x9f, 0xa0, 0xbf, 0xc0, 0xc2, 0xe0, 0xff];
  for (const a of [0x41, 0xc1, 0xc2, 0xdf, 0xe0, 0xe1, 0xec, 0xed, 0xee, 0xef, 0xf0, 0xf1, 0xf3, 0xf4, 0xf5, 0xf8])
    for (const b of edges)
      for (const c of edges)
        if (!(a === 0xef && b === 0xbb)) {
          check(a, b, c);
          for (const d of edges) check(a, b, c, d, 0x41);
        }
  expect(wrong).toEqual([]);
});

test('a list of more than 1 MiB is refused by its size, and one of just that is read', () => {
  const head = 'from,to\nS1.15,F3.1\n';
  const { problems, yaml } = read(head.padEnd(2 ** 20 + 1, '\n'));
  expect(problems).toEqual([
    {
      file: 'wires.csv',
      line: 1,
      column: 1,
      length: 1,
      code: 'file-too-large',
      severity: 'error',
      what: 'the list is larger than 1 MiB (1 048 576 bytes)',
      why: 'files over 1 MiB are not read',
      mend: ['split the list'],
    },
  ]);
  expect(yaml).toBeUndefined();
  expect(read(head.padEnd(2 ** 20, '\n'))).toMatchObject({ wires: 1 });
});

test('a column given by hand is asked for by a number only where it is nothing else', () => {
  const text = 'from,to,3x\nS1.15,F3.1,a\n';
  const whatOf = (colour: string) => read(text, { colour }).problems.flatMap((p) => (p.code === 'column-not-found' ? [p.what] : []));
  expect(whatOf('9')).toEqual(['no column is called `9`, and none has that number']);
  expect(whatOf('9x')).toEqual(['no column is called `9x`']);
  expect(whatOf('x9')).toEqual(['no column is called `x9`']);
});

test('with columns given by number a row is a head only where no end has a figure', () => {
  const byHand = { from: '1', to: '2' };
  expect(read('aa,bb,cc\nS1.15,F3.1,RD\n', byHand)).toMatchObject({ wires: 1 });
  expect(read('S2.15,bb,cc\nS1.15,F3.1,RD\n', byHand)).toMatchObject({ wires: 2 });
  expect(read('aa,F4.1,cc\nS1.15,F3.1,RD\n', byHand)).toMatchObject({ wires: 2 });
});
