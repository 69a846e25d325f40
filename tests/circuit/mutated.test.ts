import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { textOfBytes } from '../../src/circuit/wireList/bytesText.ts';
import { readWireList } from '../../src/circuit/wireList/readWireList.ts';
import { writeWireList } from '../../src/circuit/wireList/writeWireList.ts';
import { partKinds } from '../../src/parts/index.ts';

/** How many of each sort; `npm run mutated` takes 1e5. */
const count = Number(process.env['MUTATED'] ?? 1500);
/** No single text may take longer, ms: ten times what the slowest was seen to take on a shared machine (estimate). */
const patience_ms = 3000;

/** Random numbers of a seed; xorshift, from memory. */
function dice(seed: number): (below: number) => number {
  let x = seed | 1;
  return (below) => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) % below;
  };
}

const board = readFileSync('circuits/bench-board.yaml', 'utf8');
/** A short list and a short circuit, so that a change hits something each time. */
const texts = readdirSync('circuits').filter((f) => f.endsWith('.yaml'));
const lists = ([';', ',', '\t'] as const).map(
  (separator) => writeWireList(board, { separator, decimal: separator === ';' ? ',' : '.' }) ?? '',
);
const german =
  'Leitungsnr;Von;Nach;Farbe;Querschnitt;Länge;Bemerkung\r\n1;-S1:15;F3 1;rt/sw;1,5;0,9;"a ""b"""\r\n2;Masse;H1.2;br;0,75;1,2;\r\n';
const signs = [...'{}[]:,;-?&*!|>\'"%@`#\n\r\t \\.=°Ω0'];

function mutated(text: string, roll: (below: number) => number): string {
  let made = text;
  for (let k = 1 + roll(6); k > 0; k--) {
    const at = roll(made.length + 1);
    const piece = made.slice(at, at + 1 + roll(40));
    const sign = roll(4) === 0 ? String.fromCharCode(roll(65536)) : signs[roll(signs.length)]!;
    made = [
      () => made.slice(0, at) + sign + made.slice(at + 1),
      () => made.slice(0, at) + sign + made.slice(at),
      () => made.slice(0, at) + made.slice(at + piece.length),
      () => made.slice(0, at) + piece + made.slice(at),
      () => piece + made.slice(0, at) + made.slice(at + piece.length),
    ][roll(5)]!();
  }
  return made;
}

test(`${count} damaged wire lists are read or refused, never thrown at, and what is read is told or taken`, () => {
  const roll = dice(41);
  let slowest = 0;
  for (let k = 0; k < count; k++) {
    const text = mutated(roll(3) === 0 ? german : lists[roll(lists.length)]!.slice(0, 400 + roll(4000)), roll);
    const began = performance.now();
    const bytes = roll(8) === 0 ? Uint8Array.from([...text].map((c) => c.charCodeAt(0) & 255)) : new TextEncoder().encode(text);
    const read = readWireList(textOfBytes(bytes).text, 'x.csv', 'x', partKinds);
    slowest = Math.max(slowest, performance.now() - began);
    if (read.yaml === undefined) expect(read.problems.some((p) => p.severity === 'error')).toBe(true);
    else if (roll(20) === 0) expect(readCircuit(read.yaml, 'x', partKinds).problems.every((p) => p.line >= 1)).toBe(true);
    if (read.leftOut > 0) expect(read.problems.length).toBeGreaterThan(0);
  }
  expect(slowest).toBeLessThan(patience_ms);
}, 3_600_000);

test(`${count} damaged circuits are read or refused, never thrown at`, () => {
  const roll = dice(43);
  const short = board.slice(0, board.indexOf('wires:') + 900);
  let slowest = 0;
  for (let k = 0; k < count; k++) {
    const whole = roll(200) === 0 ? readFileSync(`circuits/${texts[roll(texts.length)]}`, 'utf8') : short;
    const text = mutated(whole, roll);
    const began = performance.now();
    const read = readCircuit(text, 'x.yaml', partKinds);
    slowest = Math.max(slowest, performance.now() - began);
    expect(read.ok).toBe(read.problems.every((p) => p.severity === 'warning'));
  }
  expect(slowest).toBeLessThan(patience_ms);
}, 3_600_000);
