import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { problemText } from '../../src/report/problemText.ts';
import { benchText } from './benchText.ts';

/** What any text must give: a circuit without an error, or problems whose places lie in the text. */
function soundlyRead(text: string): void {
  const read = readCircuit(text, 'x.yaml', partKinds);
  expect(read.ok).toBe(read.problems.every((p) => p.severity === 'warning'));
  const lines = text.split('\n');
  for (const p of read.problems) {
    expect(p.line).toBeGreaterThanOrEqual(1);
    expect(p.line).toBeLessThanOrEqual(lines.length);
    expect(p.column).toBeGreaterThanOrEqual(1);
    expect(p.column).toBeLessThanOrEqual(lines[p.line - 1]!.length + 1);
    expect(p.length).toBeGreaterThanOrEqual(1);
    expect([p.what, p.why, ...p.mend].join('')).not.toMatch(/undefined|\[object|NaN/);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: what a file holds must not drive the terminal
    expect(problemText(p, text)).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
  }
}

const short =
  benchText.slice(0, benchText.indexOf('  R2:')) + benchText.slice(benchText.indexOf('  H1:'), benchText.indexOf('  - { from: S1.50'));

test('2000 texts with bytes changed, put in, taken out and moved are read or refused, never thrown at', () => {
  const change = fc.record({
    at: fc.nat(),
    how: fc.constantFrom('flip', 'put', 'take', 'repeat', 'move'),
    byte: fc.oneof(
      fc.constantFrom(...[...'{}[]:,-?&*!|>\'"%@`#\n\t \\.°Ω0'].map((c) => c)),
      fc.string({ unit: 'binary', minLength: 1, maxLength: 1 }),
    ),
    span: fc.integer({ min: 1, max: 40 }),
  });
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), (changes) => {
      let text = short;
      for (const { at, how, byte, span } of changes) {
        const k = at % (text.length + 1);
        const piece = text.slice(k, k + span);
        if (how === 'flip') text = text.slice(0, k) + byte + text.slice(k + 1);
        else if (how === 'put') text = text.slice(0, k) + byte + text.slice(k);
        else if (how === 'take') text = text.slice(0, k) + text.slice(k + span);
        else if (how === 'repeat') text = text.slice(0, k) + piece + text.slice(k);
        else text = piece + text.slice(0, k) + text.slice(k + span);
      }
      soundlyRead(text);
    }),
    { seed: 21, numRuns: 2000 },
  );
}, 60_000);

test('every beginning of a file', () => {
  for (let k = 0; k <= short.length; k += 7) soundlyRead(short.slice(0, k));
}, 60_000);

test('a file without any one of its lines', () => {
  const lines = benchText.split('\n');
  for (const k of lines.keys()) soundlyRead(lines.filter((_, j) => j !== k).join('\n'));
});

test('random text', () => {
  fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), soundlyRead), { seed: 22, numRuns: 500 });
}, 60_000);
