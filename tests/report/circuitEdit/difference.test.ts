import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { differences } from '../../../src/report/circuitEdit/difference.ts';

const van = readFileSync('circuits/light-van.yaml', 'utf8');
function read(text: string) {
  const got = readCircuit(text, 'x', partKinds);
  if (!got.ok) throw new Error(got.problems.map((p) => `${p.line} ${p.what}`).join('\n'));
  return got.value;
}
const said = (change: (text: string) => string) => differences(read(van), read(change(van))).map((d) => d.text);

test.each(readdirSync('circuits').filter((f) => f.endsWith('.yaml')))('%s does not differ from itself', (file) => {
  const circuit = read(readFileSync(`circuits/${file}`, 'utf8'));
  expect(differences(circuit, circuit)).toEqual([]);
});

test('a comment and a blank line are no difference', () => {
  expect(said((t) => `# hello\n\n${t}`)).toEqual([]);
});

test.each([
  [
    'thinner',
    'id: W20, from: J3, to: F2.1, area: 1.5 mm²',
    'id: W20, from: J3, to: F2.1, area: 0.75 mm²',
    'wire W20 is 1.5 mm² there, 0.75 mm² here',
  ],
  [
    'shorter, through a plug',
    'area: 4 mm², length: 0.5 m, colour: BK, via: [X2.3]',
    'area: 4 mm², length: 0.7 m, colour: BK, via: [X2.3]',
    'wire W11 is 0.5 m long there, 0.7 m long here',
  ],
  [
    'another pin',
    'colour: BK, via: [X2.3]',
    'colour: BK, via: [X2.2]',
    'wire W11 goes from S1.15 to J3.1 through X2.3 there, from S1.15 to J3.1 through X2.2 here',
  ],
  ['another fuse', 'F2: { kind: fuse, rating: 8 A', 'F2: { kind: fuse, rating: 16 A', 'fuse F2: rating 8 A there, 16 A here'],
  ['a sector', '30-15: [42..95°]', '30-15: [48..95°]', 'key switch S1: contacts 30-15 [[42, 95]] there, [[48, 95]] here'],
  [
    'a default written out',
    'R1: { kind: ballast, resistance: 1.5 Ω',
    'R1: { kind: ballast, resistance: 1.8 Ω',
    'ballast: resistance 1.5 Ω there, 1.8 Ω here',
  ],
])('%s', (_, before, after, text) => {
  expect(van).toContain(before);
  expect(said((t) => t.replace(before, after)).map((s) => s.replace(/ballast[^:]*:/, 'ballast:'))).toEqual([text]);
});

test('a part and its wires that are only there', () => {
  const without = van
    .split('\n')
    .filter((l) => !/E8[:.]|S14[:.]/.test(l))
    .join('\n');
  const texts = differences(read(van), read(without)).map((d) => d.text);
  expect(texts).toContain('lamp E8 (Interior lamp) is only there');
  expect(texts).toContain('wire W54, from F1.2 to E8.1, is only there');
  expect(texts).toHaveLength(5);
});

test('another kind, and the engine', () => {
  expect(said((t) => t.replace('Y1: { kind: solenoid, resistance: 24 Ω', 'Y1: { kind: heater, resistance: 24 Ω'))[0]).toMatch(
    /^Y1 is a \w+.* there, a \w+.* here$/,
  );
  expect(said((t) => t.replace('drives: [G2]', 'drives: []'))).toEqual(['drives of the engine is G2 there, nothing here']);
});
