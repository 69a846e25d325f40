import { describe, expect, test } from 'vitest';
import { folded, headRead, type wireFields, wordsFor } from '../../../src/circuit/wireList/headerWords.ts';
import { readWireList } from '../../../src/circuit/wireList/readWireList.ts';
import type { ByHand } from '../../../src/circuit/wireList/tables.ts';
import { partKinds } from '../../../src/parts/index.ts';

const rows = (...lines: readonly string[]): string => lines.map((line) => `${line}\n`).join('');

/** Invented lists with what lists of workshops have: what is said of each, and what becomes of it, is read and kept in a file. */
const lists: Readonly<Record<string, { readonly text: string; readonly byHand?: ByHand }>> = {
  'no-ends': { text: rows('colour,area', 'RD,1.5', 'BK,1') },
  'one-end-alone': { text: rows('from', 'S1.15,F3.1') },
  'one-end-and-number': { text: rows('from', 'S1.15,F3.1'), byHand: { to: '2' } },
  'one-end-no-column-left': { text: rows('from,colour', 'S1.15,RD') },
  'no-head-one-number': { text: rows('battery,S1.30,RD', 'S1.15,F3.1,RD'), byHand: { from: '1' } },
  'no-head-word-in-a-row': { text: rows('S1.15,B,RD', 'S1.75,end,BN') },
  'one-end': { text: rows('from,terminal,colour', 'S1.15,F3.1,RD') },
  'no-head': { text: rows('S1.15,F3.1,RD', 'F3.2,H1.1,BN') },
  empty: { text: '' },
  'blank-lines': { text: rows('', ',,', 'from,to', ',', '', 'S1.15,F3.1', ',') },
  'title-above': { text: rows('Harness of the boat,,', 'drawn in spring,,', 'from,to,colour', 'S1.15,F3.1,RD') },
  'head-again': { text: rows('from,to,colour', 'S1.15,F3.1,RD', 'from,to,colour', 'F3.2,H1.1,RD') },
  'ids-changed': {
    text: rows('wire,from,to', '7,S1.15,F3.1', '7,S1.75,F4.1', 'W 8,S1.50,F5.1', '???,S1.30,F6.1', 'W7,F3.2,H1.1', 'front left,F4.2,H2.1'),
  },
  'no-wires': { text: rows('from,to', 'S1.15,', ',F3.1', 'R1.1,R1.1', '!!,F3.1', 'F3.1,??', '.,.') },
  'units-assumed': { text: rows('from,to,area,length', 'S1.15,F3.1,1.5,0.9', 'F3.2,H1.1,1,2', 'H1.2,ground,thick,long') },
  'units-in-head': { text: rows('from;to;area_mm2;Länge in cm', 'S1.15;F3.1;1,5;90', 'F3.2;H1.1;0,75;120') },
  'gauge-in-head': { text: rows('from,to,AWG,length [mm]', 'S1.15,F3.1,16,900', 'F3.2,H1.1,18,1200') },
  'colours-unknown': { text: rows('from,to,colour', 'S1.15,F3.1,puce', 'F3.2,H1.1,puce', 'H1.2,ground,RDBK', 'H2.2,ground,mauve') },
  'columns-unknown': {
    text: rows('from,to,supplier,empty,name,strands,material,', 'S1.15,F3.1,box 4,,feed,19,copper,x', 'F3.2,H1.1,box 5,,,7,,'),
  },
  'connector-unknown': { text: rows('from,to,via', 'S1.15,F3.1,X2.1 X3.4', 'F3.2,H1.1,X9') },
  'one-field-twice': { text: rows('from,to,colour,color', 'S1.15,F3.1,RD,BK') },
  'columns-by-hand': {
    text: rows('Pin A,?,Pin B,size', 'S1.15,RD,F3.1,1.5 mm²'),
    byHand: { from: 'pin a', to: '3', colour: '?', area: '4' },
  },
  'columns-by-number': { text: rows('S1.15,F3.1,1.5 mm²,RD'), byHand: { from: '1', to: '2', area: '3', colour: '4' } },
  'columns-by-number-with-head': { text: rows('one end,other end', 'S1.15,F3.1'), byHand: { from: '1', to: '2' } },
  'columns-by-wrong-hand': { text: rows('one end,other end', 'S1.15,F3.1'), byHand: { from: '0', to: '9999', colour: 'hue' } },
  'column-by-hand-absent': { text: rows('from,to,', 'S1.15,F3.1,RD'), byHand: { colour: 'hue', area: '12', note: '3' } },
  'column-by-hand-twice': { text: rows('from,to,Farbe', 'S1.15,F3.1,RD'), byHand: { colour: 'Farbe', note: 'Farbe' } },
  'column-by-number-twice': { text: rows('from,to,Farbe', 'S1.15,F3.1,RD'), byHand: { colour: '3', note: '3' } },
  'column-by-hand-one-end': { text: rows('Start pt,End pt', 'S1.15,F3.1'), byHand: { from: 'Start pt' } },
  'column-by-hand-far-down': {
    text: rows(...Array.from({ length: 30 }, () => 'S1.15,F1.1,RD'), 'S1.15,H1.1,RD,1.5'),
    byHand: { from: '1', to: '2', colour: '3', area: '4' },
  },
  'a-and-b': { text: rows('A,B,colour', 'S1.15,F3.1,RD') },
  'de-and-a': { text: rows('de;à;couleur;section', 'S1.15;F3.1;rouge;1,5 mm²') },
  'sep-mark': { text: 'sep=|\r\nfrom|to|area\r\nS1.15|F3.1|thick\r\n' },
  'sep-mark-unknown': { text: rows('sep=#', 'from,to', 'S1.15,F3.1') },
  'quoted-cells': {
    text: 'from,to,note\r\n"S1.15","F3.1","says ""hot"", and\r\ngoes on"\r\nF3.2,H1.1,"never closed\r\nH1.2,ground,\'=1+1\r\n"H2.2"x,ground,-\r\n',
  },
  'pins-apart': { text: rows('Von\tKlemme von\tNach\tKlemme nach\tFarbe', '-S1\t15\t-F3\t1\trot', '-F3\t\t-H1\t1\tsw') },
  'points-and-commas': { text: rows('from;to;area;length', 'S1.15;F3.1;1.5;0,9', 'F3.2;H1.1;0.75;1') },
  'parts-given': {
    text: rows(
      'from,to,via',
      'S1.15,F3.1,X2.1',
      'F3.2,H1.1,X2.3 X2',
      'part,kind,name,place,parameters',
      'F3,fuse,Lamps,dash,rating: 8 A',
      'F3,fuse,again,,rating: 5 A',
      'H 1,lamp,,,power: 5 W',
      'H1,,no kind,,',
      'H1,lamp,"Lamp: left",,"power: 5 W,\nvoltage: 12 V"',
      'X2,connector,,,pins: 2',
      'circuit,value,,,',
      'title,Boat of two lists,,,',
      'title,again,,,',
      ',nothing,,,',
      'cautions,"[mind the ""fan"", and the belt]",,,',
      'about,{ not a map },,,',
      'engine,"{ crank: H1, spark: [], fuel: [] }",,,',
    ),
  },
  'many-of-a-kind': { text: rows('from,to,colour', ...Array.from({ length: 64 }, (_, k) => `F${k}.2,H${k}.1,hue ${k}`)) },
};

test.each(Object.entries(lists))('%s', async (name, { text, byHand }) => {
  const { yaml, problems, wires, leftOut, separator, decimal, columns } = readWireList(text, 'wires.csv', 'My list', partKinds, byHand);
  const said = problems.map((p) =>
    [`${p.line}:${p.column}+${p.length} ${p.severity} ${p.code}: ${p.what}`, `    ${p.why}`, ...p.mend.map((m) => `    - ${m}`)].join('\n'),
  );
  const heads = columns.map((c) => `${c.field} "${c.head}"`).join(', ');
  const sum = `${wires} wires, ${leftOut} left out, parted by ${JSON.stringify(separator)}, decimal ${decimal}; ${heads}`;
  await expect([sum, ...said, yaml ?? '(no circuit)', ''].join('\n')).toMatchFileSnapshot(`told/${name}.txt`);
});

test('a list over 1 MiB is not read', () => {
  const read = readWireList(`from,to\n${'x'.repeat(1_048_576)}`, 'wires.csv', 'x', partKinds);
  expect(read).toMatchObject({ wires: 0, leftOut: 0, columns: [] });
  expect(read.problems.map((p) => [p.code, p.severity, p.line])).toEqual([['file-too-large', 'error', 1]]);
});

describe('heads of columns', () => {
  // Trade words of workshops in three languages: common practice, no source.
  test.each([
    ['id', 'Wire No', 'circuit no.', 'Leitungsnr', 'Adernummer', 'Repère', 'no. fil'],
    ['from', 'From', 'end A', 'Von Bauteil', 'von Klemme', 'départ', 'composant 1'],
    ['fromTerminal', 'from pin', 'pin 1', 'Klemme von', 'von Kontakt', 'broche départ', 'voie depart'],
    ['to', 'To', 'destination', 'Nach', 'zu Klemme', 'arrivée', 'vers borne'],
    ['toTerminal', 'to pin', 'to cavity', 'Klemme nach', 'zu Pin', 'borne 2', 'voie arrivée'],
    ['via', 'via', 'connector', 'über', 'Stecker', 'par', 'fiche'],
    ['colour', 'Color', 'wire colour', 'Farbe', 'Aderfarbe', 'Couleur', 'teinte'],
    ['area', 'CSA', 'cross-section', 'Querschnitt', 'qs', 'section du fil', 'calibre'],
    ['length', 'Length', 'cut length', 'Länge', 'Kabellaenge', 'longueur', 'lg'],
    ['note', 'Remarks', 'description', 'Bemerkung', 'Hinweis', 'observation', 'fonction'],
  ])('%s: %s, %s, %s, %s, %s, %s', (field, ...heads) => {
    expect(heads.map((h) => headRead(h)?.field)).toEqual(heads.map(() => field));
    const spoken = heads.map((h) => headRead(h)!.languages);
    expect(spoken[2]).toContain('German');
    expect(spoken[5]).toContain('French');
    expect(wordsFor(field as (typeof wireFields)[number])).toHaveLength(3);
  });

  test.each([
    ['Area (mm²)', 'area', 'mm²'],
    ['size sq mm', 'area', 'mm²'],
    ['Querschnitt [qmm]', 'area', 'mm²'],
    ['mm2', 'area', 'mm²'],
    ['AWG', 'area', 'AWG'],
    ['wire size gauge', 'area', 'AWG'],
    ['Länge in m', 'length', 'm'],
    ['Länge in cm', 'length', 'cm'],
    ['length_mm', 'length', 'mm'],
    ['length', 'length', undefined],
    ['length furlong', undefined, undefined],
    ['in m', undefined, undefined],
    ['supplier', undefined, undefined],
    ['', undefined, undefined],
  ])('`%s` holds %s in %s', (head, field, unit) => {
    expect([headRead(head)?.field, headRead(head)?.unit]).toEqual([field, unit]);
  });

  test('`a` is the first end beside `b`, the second one beside `de`, and nothing alone', () => {
    expect(headRead('A', ['a', 'B'])).toMatchObject({ field: 'from' });
    expect(headRead('à', ['De', 'À'])).toMatchObject({ field: 'to', languages: ['French'] });
    expect(headRead('a', ['a', 'colour'])).toBeUndefined();
  });

  test('signs, accents and capitals do not count', () => {
    expect(folded('  Größe–N° 3_Länge ')).toBe('grosse n 3 lange');
  });
});

test('a headless list of 200 000 rows, its columns given by number, is answered', () => {
  const read = readWireList('S1.15,F1.1\n'.repeat(60_000) + ',\n'.repeat(140_000), 'list.csv', 'My list', partKinds, {
    from: '1',
    to: '2',
  });
  expect(read.columns.map((c) => c.field)).toEqual(['from', 'to']);
  expect(read.wires + read.leftOut).toBe(60_000);
});
