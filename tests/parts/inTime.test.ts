import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { play } from '../../src/play/play.ts';
import { readStory } from '../../src/play/story.ts';
import { circuitFrom } from './examples.ts';

function events(circuit: Circuit, story: string): readonly { readonly t: number; readonly part: string; readonly what: string }[] {
  const read = readStory(story, circuit, 'story');
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('\n'));
  return play(circuit, read.value).events.filter((e) => e.part !== '');
}

/** One protective part with a resistance behind it and a switch before it. */
const behind = (part: string, ohm: number) =>
  circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: switch, contact: 1 nΩ }
  F1: { kind: ${part}, resistance: 1 nΩ }
  R1: { kind: resistor, resistance: ${ohm} Ω }
wires:
  - { from: G1.+, to: S1.1 }
  - { from: S1.2, to: F1.1 }
  - { from: F1.2, to: R1.1 }
  - { from: R1.2, to: ground }
  - { from: G1.-, to: ground }
`);

// Times of ISO 8820-3 as makers' sheets print them (secondary; blade 135, 350 and 600 % from memory).
test.each([
  ['fuse, form: mini, rating: 10 A', 1.35, 0.75, 600],
  ['fuse, rating: 10 A', 1.6, 0.25, 50],
  ['fuse, rating: 10 A', 2, 0.15, 5],
  ['fuse, form: mini, rating: 10 A', 3.5, 0.08, 0.5],
  ['fuse, form: mini, rating: 10 A', 6, 0.03, 0.1],
  ['fuse, form: maxi, rating: 40 A', 2, 2, 50],
] as [string, number, number, number][])('%s at %f times its rating opens within %f to %f s', (part, share, least, most) => {
  const rating = part.includes('40 A') ? 40 : 10;
  const blown = events(behind(part, 12 / (rating * share)), `S1 on ${most} s`).find((e) => e.part === 'F1');
  expect(blown?.what).toBe('blown');
  expect(blown!.t).toBeGreaterThanOrEqual(least);
  expect(blown!.t).toBeLessThanOrEqual(most);
});

test('a fuse holds its own rating for an hour, and short overloads with pauses between', () => {
  expect(events(behind('fuse, rating: 10 A', 1.2), 'S1 on 1 h').filter((e) => e.part === 'F1')).toEqual([]);
  const bursts = Array.from({ length: 5 }, () => 'S1 on 0.2 s, S1 off 120 s').join(', ');
  expect(events(behind('fuse, rating: 10 A', 0.6), bursts).filter((e) => e.part === 'F1')).toEqual([]);
});

test('a type 1 breaker cycles while the fault lasts, a type 2 opens once: SAE J553 by a description (secondary)', () => {
  const count = (type: number) =>
    events(behind(`circuit-breaker, type: ${type}, rating: 10 A`, 0.6), 'S1 on 90 s').filter((e) => e.part === 'F1').length;
  expect(count(1)).toBeGreaterThanOrEqual(4);
  expect(count(2)).toBe(1);
});

test('a flasher beats 90 times a minute with both lamps and twice that with one: UN R48, 90 ± 30 (from memory)', () => {
  const lamps = (count: number) =>
    circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: switch }
  K1: { kind: flasher }
${Array.from({ length: count }, (_, k) => `  E${k + 1}: { kind: lamp, power: 21 W }`).join('\n')}
wires:
  - { from: G1.+, to: K1.49 }
  - { from: K1.49a, to: S1.1 }
${Array.from({ length: count }, (_, k) => `  - { from: S1.2, to: E${k + 1}.1 }\n  - { from: E${k + 1}.2, to: ground }`).join('\n')}
  - { from: G1.-, to: ground }
`);
  const beats = (count: number) => events(lamps(count), 'S1 on 20 s').filter((e) => e.part === 'K1' && e.what === 'lit').length;
  expect(Math.abs(beats(2) - 30)).toBeLessThanOrEqual(1);
  expect(Math.abs(beats(1) - 60)).toBeLessThanOrEqual(2);
});

test('a battery gives away what flows out of it: 5 A for an hour are a tenth of 50 Ah', () => {
  const circuit = circuitFrom(`title: t
parts:
  G1: { kind: battery, capacity: 50 Ah, self-discharge: 0 % }
  G2: { kind: current-supply, current: 5 A }
wires:
  - { from: G1.+, to: G2.- }
  - { from: G2.+, to: G1.- }
  - { from: G1.-, to: ground }
`);
  const read = readStory('wait 1 h', circuit, 'story');
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('\n'));
  const charge = play(circuit, read.value).end.states.get('G1')?.['charge'];
  expect(charge).toBeCloseTo(0.9, 6);
});
