import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { putOf } from '../../src/faults/putOf.ts';
import { play } from '../../src/play/play.ts';
import { readStory } from '../../src/play/story.ts';
import { sound } from '../circuit/phraseCircuit.ts';
import { vehicle } from './vehicle.ts';

/**
 * Story, its fault, what is told in this order (others may come between), what is never told, and for a drain the hours
 * until the battery is flat: its ampere-hours by the draw, both as the circuit and the story state them.
 */
const stories: readonly (readonly [string, string, readonly string[], readonly string[], number?])[] = [
  [
    'bench-board-1',
    '',
    ['K1 pulled', 'K2 pulled', 'starter turns the engine', 'K1 no longer pulled', 'key springs back to ON'],
    ['M1 flat'],
  ],
  [
    'bench-board-2',
    'S1.30-50 stuck closed',
    ['K1 pulled', 'starter turns the engine', 'key springs back to ON', 'engine dies, the starter still turns it'],
    ['K1 no longer pulled'],
  ],
  ['bench-board-3', 'S4 stuck closed', ['G1 flat'], [], 16],
  [
    'boat-1',
    '',
    ['K1 pulled', 'starter turns the engine', 'engine fires and runs', 'key springs back to ON', 'engine dies', 'engine stands still'],
    [],
  ],
  ['boat-2', 'X1.3 open', ['engine fires and runs'], ['engine dies', 'engine stands still']],
  ['boat-3', '', ['engine fires and runs', 'engine dies', 'engine stands still'], []],
  [
    'classic-six-volt-1',
    '',
    [
      'K1 pulled',
      'starter turns the engine',
      'engine fires and runs',
      'G2 closed',
      'K1 no longer pulled',
      'G2 no longer closed',
      'engine dies',
      'engine stands still',
    ],
    [],
  ],
  [
    'classic-six-volt-2',
    'S5 open',
    ['starter turns the engine', 'K1 no longer pulled', 'starter is out, the engine runs down', 'engine stands still'],
    ['engine fires and runs'],
  ],
  ['classic-six-volt-3', 'S10 stuck closed', ['G1 flat'], [], 84],
  [
    'diesel-estate-1',
    '',
    [
      'Y1 pulled',
      'K1 pulled',
      'M1 engaged',
      'engine fires and runs',
      'K1 no longer pulled',
      'M1 no longer engaged',
      'Y1 no longer pulled',
      'engine dies',
      'engine stands still',
    ],
    [],
  ],
  [
    'diesel-estate-2',
    'S1.30-15 open at ON',
    ['M1 engaged', 'engine fires and runs', 'Y1 no longer pulled', 'key springs back to ON', 'engine dies', 'engine stands still'],
    [],
  ],
  ['diesel-estate-3', 'K1 contact stuck closed', ['G1 flat'], [], 1.4],
  [
    'light-van-1',
    '',
    ['M1 engaged', 'engine fires and runs', 'G2 excited', 'M1 no longer engaged', 'engine dies', 'engine stands still'],
    [],
  ],
  [
    'light-van-2',
    'S1.30-15 open at ON',
    ['M1 engaged', 'engine fires and runs', 'M1 no longer engaged', 'key springs back to ON', 'engine dies', 'engine stands still'],
    [],
  ],
  ['light-van-3', 'S14 stuck closed', ['G1 flat'], [], 114],
  [
    'modern-saloon-1',
    '',
    [
      'A3 mode: awake, live 15, closed RL',
      'K1 pulled',
      'M1 engaged',
      'engine fires and runs',
      'K1 no longer pulled',
      'engine dies',
      'engine stands still',
      'A1 mode: asleep',
      'A2 mode: asleep',
    ],
    [],
  ],
  [
    'modern-saloon-2',
    '',
    ['A1 live 50', 'A1 no longer live 50', 'key springs back to ON'],
    ['K1 pulled', 'M1 engaged', 'engine fires and runs'],
  ],
  ['modern-saloon-3', 'A2 stays awake', ['G1 flat'], ['A2 mode: asleep'], 100],
  ['motorcycle-1', '', ['K1 pulled', 'engine fires and runs', 'K1 no longer pulled', 'engine dies', 'engine stands still'], []],
  [
    'motorcycle-2',
    '',
    ['K1 pulled', 'engine fires and runs', 'K1 no longer pulled', 'A1 live SS, no longer low SS, no longer closed I', 'engine dies'],
    [],
  ],
  ['motorcycle-3', '', ['G1 flat'], [], 12.9],
  [
    'saloon-1',
    '',
    [
      'K3 pulled',
      'K3 no longer pulled',
      'K2 no longer pulled',
      'K4 pulled',
      'M1 engaged',
      'engine fires and runs',
      'M1 no longer engaged',
      'K2 pulled',
      'engine dies',
      'engine stands still',
    ],
    [],
  ],
  [
    'saloon-2',
    'K3.coil open',
    ['M1 engaged', 'starter turns the engine', 'M1 no longer engaged', 'starter is out, the engine runs down', 'engine stands still'],
    ['K3 pulled', 'engine fires and runs'],
  ],
  ['saloon-3', 'K2 contact stuck closed', ['G1 flat'], [], 4.5],
  ['tractor-1', '', ['K1 pulled', 'M1 engaged', 'engine fires and runs', 'M1 no longer engaged'], ['engine dies', 'engine stands still']],
  ['tractor-2', 'S3 open', ['key springs back to ON'], ['K1 pulled', 'M1 engaged']],
  ['tractor-3', '', ['G1 flat'], [], 10.5],
  [
    'truck-1',
    '',
    [
      'K8 pulled',
      'M1 engaged',
      'engine fires and runs',
      'K4 pulled',
      'K1 no longer pulled',
      'Y1 pulled',
      'engine dies',
      'engine stands still',
      'Y1 no longer pulled',
    ],
    [],
  ],
  ['truck-2', 'F5 blown', ['engine fires and runs'], ['Y1 pulled', 'engine dies']],
  ['truck-3', '', ['K8 pulled', 'G1 flat'], [], 468],
];

test('three stories for every circuit, and no other file', () => {
  const circuits = readdirSync('circuits').filter((f) => f.endsWith('.yaml'));
  expect(readdirSync('circuits/stories').sort()).toEqual(stories.map(([name]) => `${name}.story`).sort());
  expect(stories.map(([name]) => `${name.slice(0, -2)}.yaml`)).toEqual(circuits.sort().flatMap((c) => [c, c, c]));
});

const rows = stories.map(([name, fault, told, never, hours]) => ({ name, fault, told, never, hours }));
test.each(rows)('$name with "$fault" tells what it states', ({ name, fault, told, never, hours }) => {
  const { circuit } = vehicle(name.slice(0, -2));
  const file = `circuits/stories/${name}.story`;
  const text = readFileSync(file, 'utf8');
  const [about, faultLine] = text.split('\n');
  expect(about).toMatch(/^# .* Invented\.$/);
  expect(faultLine).toBe(`# Fault: ${fault || 'none'}`);
  const put = putOf(fault === '' ? [] : [sound(readFault(fault, circuit))]);
  const played = play(circuit, sound(readStory(text, circuit, file)), put, 1);
  expect(played.chatters).toBeUndefined();
  const events = played.events.map((e) => ({ t: e.t, what: e.part === undefined || e.part === 'engine' ? e.what : `${e.part} ${e.what}` }));
  let from = 0;
  for (const what of told) {
    const next = events.findIndex((e, k) => k >= from && e.what.trim() === what);
    expect(next, `${what} after ${from === 0 ? 'the beginning' : events[from - 1]!.what}`).toBeGreaterThanOrEqual(0);
    from = next + 1;
  }
  for (const what of never) expect(events.map((e) => e.what.trim())).not.toContain(what);
  const flat = events.find((e) => e.what === 'G1 flat');
  if (hours === undefined) expect(flat).toBeUndefined();
  // Within a tenth: draws fall with the volts, and stated draws are rounded.
  else expect(Math.abs(flat!.t / 3600 - hours)).toBeLessThan(0.1 * hours);
});
