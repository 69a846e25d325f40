import { describe, expect, test } from 'vitest';
import { boxesFor, type UsedTerminals } from '../../../src/circuit/wireList/boxes.ts';
import { csvLine, csvRows } from '../../../src/circuit/wireList/csv.ts';
import { cellQuantity } from '../../../src/circuit/wireList/quantities.ts';
import { partKinds } from '../../../src/parts/index.ts';

describe('a number of a table as a circuit file writes it', () => {
  const read = (text: string, field: 'area' | 'length' = 'area', unit?: string, decimal: '.' | ',' = '.') => {
    const cell = cellQuantity(text, field, unit, decimal);
    return 'written' in cell ? cell.written + (cell.assumed === undefined ? '' : ` (taken as ${cell.assumed})`) : 'refused';
  };
  test.each([
    ['2.5', '2.5 mm² (taken as mm²)'],
    [' 2.5 ', '2.5 mm² (taken as mm²)'],
    ['.5', '.5 mm² (taken as mm²)'],
    ['2.5 mm2', '2.5 mm²'],
    ['2.5 sqmm', '2.5 mm²'],
    ['2.5 sq.mm', '2.5 mm²'],
    ['2.5 qmm', '2.5 mm²'],
    ['2.5 mmq', '2.5 mm²'],
    ['2.5 MM^2', '2.5 mm²'],
    ['2.5mm²', '2.5 mm²'],
    ['0.04', 'refused'],
    ['501', 'refused'],
    ['500', '500 mm² (taken as mm²)'],
    ['0.05', '0.05 mm² (taken as mm²)'],
    ['thick', 'refused'],
    ['', 'refused'],
  ])('area `%s`: %s', (text, written) => {
    expect(read(text)).toBe(written);
  });
  test.each([
    ['16', '16 AWG'],
    ['#16', '16 AWG'],
    ['2/0', '2/0 AWG'],
    ['161', 'refused'],
  ])('gauge `%s` under a head that says AWG: %s', (text, written) => {
    expect(read(text, 'area', 'AWG')).toBe(written);
  });
  test('a number below a head with its unit bears that one, and only an area is a gauge', () => {
    expect(read('2.5', 'area', 'mm²')).toBe('2.5 mm²');
    expect(read('40', 'length', 'cm')).toBe('40 cm');
    expect(read('16', 'length', 'AWG')).toBe('refused');
  });
  // Foot and inch: exact by definition (BIPM, The International System of Units, 9th edition: 0.3048 m; from memory).
  test.each([
    ['1.5', '1.5 m (taken as m)'],
    ['1.5 metre', '1.5 m'],
    ['1.5 mètres', '1.5 m'],
    ['2 ft', '0.6096 m'],
    ["2'", '0.6096 m'],
    ['10 in.', '0.254 m'],
    ['10"', '0.254 m'],
    ['10 inch', '0.254 m'],
    ['1001', 'refused'],
    ['1000', '1000 m (taken as m)'],
    ['-1', 'refused'],
    ['2 furlongs', 'refused'],
  ])('length `%s`: %s', (text, written) => {
    const { written: got } = { written: read(text, 'length') };
    expect(got).toBe(written);
  });
  test.each([
    ['1,5', ',', '1.5 m (taken as m)'],
    [',5', ',', '0.5 m (taken as m)'],
    ['1.234,5 mm', ',', '1234.5 mm'],
    ['1,234.5 mm', '.', '1234.5 mm'],
    ['1 234 mm', '.', '1234 mm'],
    ["1'234 mm", '.', '1234 mm'],
    ['1.234', ',', '1.234 m (taken as m)'],
    ['1,23', '.', 'refused'],
  ] as const)('`%s` where the decimal sign is `%s`: %s', (text, decimal, written) => {
    expect(read(text, 'length', undefined, decimal)).toBe(written);
  });
  test('what is refused says why, and how to mend it', () => {
    const cell = cellQuantity('900', 'area', undefined, '.');
    expect(cell).toEqual({
      why: '`900 mm²` is outside of what the area of a wire can be',
      mend: ['it is from 0.05 mm² to 500 mm²; look at the unit and the decimal sign'],
    });
  });
});

describe('rows of a file with separated cells', () => {
  const texts = (text: string, separator: ',' | ';' = ',') => csvRows(text, separator).map((row) => row.cells.map((c) => c.text));
  test('quotes double inside quotes; what follows a closing quote belongs to the cell; one that never closes ends with its line', () => {
    expect(texts('a,"b,""c""",d\ne,"f"g,h')).toEqual([
      ['a', 'b,"c"', 'd'],
      ['e', 'fg', 'h'],
    ]);
    expect(texts('a,"b\nc,d')).toEqual([
      ['a', '"b'],
      ['c', 'd'],
    ]);
    expect(texts('a,"b\nc",d')).toEqual([['a', 'b\nc', 'd']]);
  });
  test('every sort of line end; the last one is no row of its own', () => {
    expect(texts('a\r\nb\rc\nd\n')).toEqual([['a'], ['b'], ['c'], ['d']]);
    expect(texts('')).toEqual([['']]);
    expect(texts('a,\n,b')).toEqual([
      ['a', ''],
      ['', 'b'],
    ]);
  });
  test('each cell knows its place, behind one that goes over lines too', () => {
    const places = csvRows('a, bc\n"d\ne",f', ',').map(({ line, cells }) => [line, cells.map((c) => [c.line, c.column, c.length])]);
    expect(places).toEqual([
      [
        1,
        [
          [1, 1, 1],
          [1, 3, 3],
        ],
      ],
      [
        2,
        [
          [2, 1, 1],
          [3, 4, 1],
        ],
      ],
    ]);
    expect(csvRows('a\nb\nc', ',', 2)).toHaveLength(2);
  });
  test('what a table program would compute is written behind an apostrophe and read without it; numbers stay as they are', () => {
    const written = csvLine(['=1+1', '+x', '-x', '@x', "'=x", '-12', '+1.5', '-0,5', '-1.5x', 'a'], ';');
    expect(written).toBe("'=1+1;'+x;'-x;'@x;''=x;-12;+1.5;-0,5;'-1.5x;a");
    expect(texts(written, ';')).toEqual([['=1+1', '+x', '-x', '@x', "'=x", '-12', '+1.5', '-0,5', '-1.5x', 'a']]);
    expect(csvLine(['a;b', 'c"d', 'e\nf', 'g\rh', 'i'], ';')).toBe('"a;b";"c""d";"e\nf";"g\rh";i');
  });
});

describe('parts that no table describes', () => {
  const kinds = [...partKinds.values()];
  const boxes = (id: string, terminals: readonly string[], more: { name?: string; bare?: boolean } = {}, known: readonly string[] = []) => {
    const used: UsedTerminals = new Map([
      [id, { terminals: new Set(terminals), name: more.name, ...(more.bare !== undefined && { bare: more.bare }) }],
    ]);
    const told: string[] = [];
    const lines = boxesFor(used, new Map(known.map((k) => [k, k])), kinds, (_at, p) => {
      expect(p.severity).toBe('warning');
      expect(p.mend).toHaveLength(1);
      told.push(`${p.code}: ${p.what} | ${p.mend[0]}`);
    });
    return { lines, told };
  };
  test('one that a table describes needs nothing', () => {
    expect(boxes('F3', ['1'], {}, ['F3'])).toEqual({ lines: [], told: [] });
  });
  test('a point where wires meet is a splice, or a ground point by its letters', () => {
    expect(boxes('J7', [])).toMatchObject({
      lines: ['  J7: { kind: splice }'],
      told: [expect.stringMatching(/^part-is-point: no table describes `J7`; wires meet there, so it is a splice \| /)],
    });
    expect(boxes('J7', [], { name: 'Dash joint' }).lines).toEqual(['  J7: { kind: splice, name: Dash joint }']);
    for (const id of ['XE4', 'GND2', 'mp1']) expect(boxes(id, []).lines[0]).toContain('kind: ground-point');
  });
  test('anything else is a box that lets nothing through, with a second terminal where one alone was named', () => {
    const note = 'note: "only its terminals are known, from the wire list"';
    expect(boxes('A9', ['15', '31', 'x']).lines).toEqual([
      `  A9: { kind: unknown-load, terminals: [15, 31, x], current: 0 A, load: no, ${note} }`,
    ]);
    expect(boxes('A9', ['15']).lines[0]).toContain('terminals: [15, 31]');
    expect(boxes('A9', ['31']).lines[0]).toContain('terminals: [31, 30]');
    expect(boxes('A9', ['15', '31'], { name: 'Box' }).lines[0]).toContain('name: Box');
    expect(boxes('F9', ['1', '2']).told[0]).toMatch(/\| kinds that have such terminals: `fuse`/);
    expect(boxes('Q9', ['x']).told[0]).toBe(
      'part-is-box: no table describes `Q9`; it is a box with the terminals `x` | write its kind in place of `unknown-load`; `detent parts` lists every kind',
    );
  });
  test('a wire that leads to it without a terminal is told besides, where it has any', () => {
    expect(boxes('A9', ['1', '2'], { bare: true }).told[1]).toBe(
      'terminal-missing: a wire of the list leads to `A9` without saying at which terminal | write one of `A9.1`, `A9.2`',
    );
    expect(boxes('A9', [], { bare: true }).told).toHaveLength(1);
    expect(boxes('A9', ['1', '2'], { bare: false }).told).toHaveLength(1);
  });
});
