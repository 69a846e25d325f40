import { describe, expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { benchText } from './benchText.ts';

function bench(text = benchText): Circuit {
  const read = readCircuit(text, 'bench.yaml', partKinds);
  expect(read.problems).toEqual([]);
  if (!read.ok) throw new Error('not read');
  return read.value;
}
const codes = (text: string) => readCircuit(text, 'x.yaml', partKinds).problems.map((p) => p.code);

describe('what is read', () => {
  const circuit = bench();
  const part = (id: string) => circuit.parts.get(id)!;

  test('head', () => {
    expect(circuit).toMatchObject({
      title: 'Bench board, 12 V',
      about: 'Two lines\nfor the reader',
      ambient: 25,
      cautions: ['hands clear'],
    });
    expect(circuit.engine).toEqual({ crank: 'R2', spark: ['H1'], fuel: ['H2'], drives: [] });
  });
  test('parts with what they were given and their defaults', () => {
    expect(part('G1').params).toMatchObject({ voltage: 12.6, resistance: 0.01 });
    expect([...part('H1').given].sort()).toEqual(['at', 'power']);
    expect(part('H2').params).toMatchObject({ power: 2, at: 12 });
    expect(part('R2').params).toMatchObject({ resistance: 10_000 });
    expect(part('H1')).toMatchObject({ name: 'Panel lamp', minutes: 3, isLoad: true });
    expect(part('R2')).toMatchObject({ place: 'under the board', note: 'spare', isLoad: false });
    expect(part('H2')).toMatchObject({ isLoad: false, needs: ['S2 on'] });
  });
  test('wires are parts after the parts, ends fastened', () => {
    const ids = [...circuit.parts.keys()];
    expect(ids.slice(0, 9)).toEqual(['G1', 'S1', 'X2', 'J1', 'R1', 'R2', 'H1', 'H2', 'S2']);
    expect(part('W1').params).toMatchObject({ area: 2.5, length: 1.2, colour: 'RD' });
    expect(circuit.attached).toContainEqual(['W1.1', 'G1.+']);
    expect(circuit.attached).toContainEqual(['W1.2', 'S1.30']);
  });
  test('a wire without id is named by its ends', () => {
    expect(part('S1/15-R1/1').kind.isWire).toBe(true);
    expect(circuit.attached).toContainEqual(['S1/15-R1/1.2', 'R1.1']);
    expect(part('H1/2-ground').params['length']).toBeUndefined();
  });
  test('a part with one terminal needs no terminal named', () => {
    expect(circuit.attached).toContainEqual(['S1/75-J1.2', 'J1.1']);
    expect(circuit.attached).toContainEqual(['J1-S2/1.1', 'J1.1']);
  });
  test('a wire that passes two connector pins is three sections with equal shares of the length', () => {
    expect(circuit.parts.has('W7')).toBe(false);
    for (const id of ['W7a', 'W7b', 'W7c']) expect(part(id).params).toMatchObject({ area: 1, colour: 'BK/YE', length: 0.9 / 3 });
    const ends = circuit.attached.filter(([end]) => end.startsWith('W7')).map(([, terminal]) => terminal);
    expect(ends).toEqual(['R1.2', 'X2.1a', 'X2.1b', 'X2.2a', 'X2.2b', 'H1.1']);
  });
  test('a gauge is an area', () => {
    // AWG 16: 1.309 mm² (ASTM B258, from memory), half a unit of the last digit.
    expect(Math.abs((part('block-ground').params['area'] as number) - 1.309)).toBeLessThan(5e-4);
  });
});

test('the same file written as JSON gives the same circuit', () => {
  const yaml = `{ "title": "T", "parts": { "G1": { "kind": "supply", "voltage": "12 V" }, "H1": { "kind": "lamp", "power": "5 W", "load": true, "minutes": 4 } },
\t"wires": [ { "from": "G1.+", "to": "H1.1" }, { "from": "H1.2", "to": "ground" }, { "from": "G1.-", "to": "ground" } ] }`;
  expect(JSON.parse(yaml)).toBeTruthy();
  const circuit = bench(yaml);
  expect(circuit.parts.get('H1')).toMatchObject({ isLoad: true, minutes: 4 });
});

test('equal wires without ids get ids of their own', () => {
  const circuit = bench(
    benchText.replace('  - { from: G1.-, to: ground }\n', '  - { from: G1.-, to: ground }\n  - { from: G1.-, to: ground }\n'),
  );
  expect([...circuit.parts.keys()]).toEqual(expect.arrayContaining(['G1/--ground', 'G1/--ground_2']));
});

test('line ends of any system, a byte order mark and a missing last line end are read', () => {
  bench(benchText.replaceAll('\n', '\r\n'));
  bench(`\uFEFF${benchText}`);
  bench(benchText.trimEnd());
});

describe('refused before anything is built', () => {
  test('over 1 MiB, counted in bytes', () => {
    expect(codes(`title: T # ${'x'.repeat(1024 * 1024)}`)).toEqual(['file-too-large']);
    expect(codes(`title: T # ${'Ω'.repeat(600_000)}`)).toEqual(['file-too-large']);
    const [problem] = readCircuit('x'.repeat(2 ** 20 + 1), 'x.yaml', partKinds).problems;
    expect(problem).toMatchObject({ line: 1, column: 1, what: 'the file is larger than 1 MiB (1 048 576 bytes)' });
  });
  test('over 20 000 parts', () => {
    const parts = Array.from({ length: 20_001 }, (_, k) => `  R${k}: { kind: resistor, resistance: 1 Ω }`).join('\n');
    const read = readCircuit(`title: T\nparts:\n${parts}\n`, 'x.yaml', partKinds);
    expect(read.problems.map((p) => p.code)).toEqual(['too-many-parts']);
    expect(read.problems[0]!.what).toContain('20001 parts; up to 20000 are read');
  });
  test('over 200 000 terminals', () => {
    const parts = Array.from({ length: 501 }, (_, k) => `  X${k}: { kind: connector, pins: 200 }`).join('\n');
    expect(codes(`title: T\nparts:\n${parts}\n`)).toEqual(['too-many-terminals']);
  });
  test('thousands of problems end in one that counts the rest', () => {
    const keys = Array.from({ length: 5000 }, (_, k) => `k${k}: 1`).join(', ');
    const read = readCircuit(`title: T\nparts:\n  R1: { kind: resistor, resistance: 1 Ω, ${keys} }\n`, 'x.yaml', partKinds);
    expect(read.problems.length).toBe(1001);
    expect(read.problems.at(-1)).toMatchObject({ code: 'more-problems', what: '4000 more problems follow from here' });
  });
  test('what could take minutes takes seconds: unknown names among many, equal wires by the thousand', () => {
    const lines = (n: number, line: (k: number) => string) => Array.from({ length: n }, (_, k) => line(k)).join('\n');
    const resistors = lines(8000, (k) => ` R${k}: {kind: resistor, resistance: 1 Ω}`);
    expect(codes(`title: T\nparts:\n${resistors}\nwires:\n${lines(8000, (k) => `- {from: Q${k}.1, to: P${k}.2}`)}`).length).toBe(1001);
    expect(
      codes(`title: T\nparts:\n R1: {kind: resistor, resistance: 1 Ω}\nwires:\n${lines(20_000, () => '- {from: R1.1, to: R1.2}')}`),
    ).toEqual(['no-supply']);
  }, 60_000);
  test.each([
    ['brackets', '['.repeat(200_000)],
    ['braces', '{a: '.repeat(100_000)],
    ['dashes', '- '.repeat(200_000)],
    ['question marks', '? '.repeat(200_000)],
    ['brackets hidden by comments', `${'[ # ]\n'.repeat(50_000)}`],
    ['indentation', Array.from({ length: 1200 }, (_, k) => `${' '.repeat(k)}a:`).join('\n')],
  ])('nesting by %s', (_, deep) => {
    expect(codes(`title: T\nparts: ${deep}`).length).toBe(1);
    expect(codes(deep).length).toBe(1);
  });
});

test('names that every object carries do no harm, wherever they stand', () => {
  for (const name of ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty']) {
    for (const text of [
      benchText.replace('  R1:', `  ${name}: { kind: resistor, resistance: 1 Ω }\n  R1:`),
      benchText.replace('title:', `${name}: { polluted: yes }\ntitle:`),
      benchText.replace('kind: switch', `kind: switch, ${name}: { polluted: yes }`),
      benchText.replace('ACC:', `${name}:`),
      benchText.replace('kind: switch', `kind: ${name}`),
      benchText.replace('R1.1', `${name}.1`),
      benchText.replace('R1.1', `R1.${name}`),
    ])
      expect(readCircuit(text, 'x.yaml', partKinds).ok, `${name} in ${text}`).toBe(false);
  }
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});

test('a place is 1-based, in UTF-16 units, and covers the text', () => {
  const text = benchText.replace('power: 5 W', "name: 'Ω🔧', power: 5 V");
  const [problem] = readCircuit(text, 'x.yaml', partKinds).problems;
  const line = text.split('\n')[problem!.line - 1]!;
  expect(line.slice(problem!.column - 1, problem!.column - 1 + problem!.length)).toBe('5 V');
});

test('problems come in the order of the file', () => {
  const text = benchText.replace('ambient: 25 °C', 'ambient: 25').replace('power: 5 W', 'power: 5').replace('to: R1.1', 'to: R9.1');
  const lines = readCircuit(text, 'x.yaml', partKinds).problems.map((p) => p.line);
  expect(lines).toEqual([...lines].sort((a, b) => a - b));
  expect(lines.length).toBe(3);
});
