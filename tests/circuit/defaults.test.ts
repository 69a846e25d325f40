import { describe, expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { sound } from './phraseCircuit.ts';

const least = `title: Least
parts:
  G1: { kind: supply, voltage: 12 V }
  R1: { kind: resistor, resistance: 6 Ω }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: R1.2, to: ground }
  - { from: G1.-, to: ground }
`;
const read = (text: string) => readCircuit(text, 'least.yaml', partKinds);

test('what a file leaves out has its usual value: 20 °C, no cautions, no words about it, no engine', () => {
  const { parts, attached, ...head } = sound(read(least));
  expect(head).toEqual({ title: 'Least', ambient: 20, cautions: [] });
  expect([...parts.keys()]).toEqual(['G1', 'R1', 'G1/+-R1/1', 'R1/2-ground', 'G1/--ground']);
  expect(attached).toEqual([
    ['G1/+-R1/1.1', 'G1.+'],
    ['G1/+-R1/1.2', 'R1.1'],
    ['R1/2-ground.1', 'R1.2'],
    ['R1/2-ground.2', 'ground'],
    ['G1/--ground.1', 'G1.-'],
    ['G1/--ground.2', 'ground'],
  ]);
  const full = sound(read(least.replace('title: Least', 'title: Full\nabout: A board.\nambient: -5 °C\ncautions: [Hot]')));
  expect([full.title, full.about, full.ambient, full.cautions]).toEqual(['Full', 'A board.', -5, ['Hot']]);
});

// Words for the body that people write; the file knows `ground` and `block` only.
test.each(['gnd', 'GND', 'earth', 'mass', 'chassis', 'Body', 'frame', 'masse', '31', '0', '0V', '-', 'grund', 'grounds'])(
  'a wire that ends at `%s` is told the word for the body, and nothing else',
  (word) => {
    const { problems } = read(least.replace('- { from: R1.2, to: ground }', `- { from: R1.2, to: "${word}" }`));
    const [problem] = problems.filter((p) => p.severity === 'error');
    expect(problem).toMatchObject({ code: 'unknown-part' });
    expect(problem!.mend).toHaveLength(1);
    expect(problem!.mend[0]).toContain('`ground`');
  },
);
test('a word that is none of them is taken for a part that is missing, the body only besides', () => {
  const { problems } = read(least.replace('- { from: R1.2, to: ground }', '- { from: R1.2, to: lamp }'));
  expect(problems.find((p) => p.code === 'unknown-part')!.mend[0]).toBe('add the part `lamp`');
});

describe('at the very limit', () => {
  test('a file of 1 MiB is read, one of a byte more is not; signs of two, three and four bytes count as such', () => {
    const limit = 2 ** 20;
    // The ohm sign, ° and ² of the file take more than one byte.
    const bytesOf = (text: string) => new TextEncoder().encode(text).length;
    const padded = (sign: string, over: number) => {
      const room = limit + over - bytesOf(least) - 2;
      const wide = bytesOf(sign);
      return `${least}#${sign.repeat(Math.floor(room / wide))}${'x'.repeat(room % wide)}\n`;
    };
    for (const sign of ['x', 'Ω', '€', '😀']) {
      expect(bytesOf(padded(sign, 0))).toBe(limit);
      expect(read(padded(sign, 0)).ok).toBe(true);
      expect(read(padded(sign, 1)).problems.map((p) => p.code)).toEqual(['file-too-large']);
    }
  });
  // 64 levels are read; each sign that nests counts by itself, and within brackets colons do not.
  test.each(['- ', '? ', ': '])('a line of 64 times `%s` is read, of 65 refused as nested too deep', (sign) => {
    const codes = (times: number) => read(`${sign.repeat(times)}x\n`).problems.map((p) => p.code);
    expect(codes(64)).not.toContain('too-deep');
    expect(codes(65)).toEqual(['too-deep']);
  });
  test.each([
    ['[', ']'],
    ['{a: ', '}'],
  ])('64 of `%s` are read, 65 refused', (open, close) => {
    const codes = (times: number) => read(`a: ${open.repeat(times)}x${close.repeat(times)}\n`).problems.map((p) => p.code);
    expect(codes(64)).not.toContain('too-deep');
    expect(codes(65)).toEqual(['too-deep']);
  });
  test('a hundred entries in one pair of brackets are no nesting', () => {
    const list = Array.from({ length: 100 }, (_, k) => `k${k}: 1`).join(', ');
    expect(read(`${least}note: { ${list} }\n`).problems.map((p) => p.code)).not.toContain('too-deep');
  });
});

test('of the pins of a large connector that might be meant eight are told', () => {
  const { problems } = read(
    least
      .replace('parts:', 'parts:\n  X1: { kind: connector, pins: 40 }')
      .replace('- { from: G1.+, to: R1.1 }', '- { from: G1.+, to: R1.1, via: [X1.zzzz] }'),
  );
  const [problem] = problems.filter((p) => p.code === 'unknown-pin');
  expect(problem!.what).toContain('a pin that X1 does not have');
  expect(problem!.mend[0]!.match(/`X1\.\d+`/g)!.length).toBe(8);
  expect(problem!.mend[0]).toMatch(/^pins: `X1\.\d+`/);
});
