import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Scene } from '../../src/circuit/scene.ts';
import { readHand, readKeyPlace, readScene, restScene, sceneText } from '../../src/circuit/scenePhrase.ts';
import { bench, inWords, keyless, sound } from './phraseCircuit.ts';

test.each([
  // Angles worked out by hand from the sectors of the bench: contacts change at 22, 48, 70 and 80 degrees. Turned up, the
  // key is 3 degrees ahead of the switch (lost motion of a good lock); on the way back the switch follows at once.
  ['ON', { angle: 60, came: 'up', in: true }],
  ['on', { angle: 60, came: 'up', in: true }],
  ['75°', { angle: 75, came: 'up', in: true }],
  ['75 °', { angle: 75, came: 'up', in: true }],
  ['between ON and START', { angle: 78, came: 'up', in: true }], // 70 to 80: only 30-15
  ['between START and ON', { angle: 78, came: 'up', in: true }],
  ['between ON and START 1', { angle: 78, came: 'up', in: true }],
  ['between ACC and ON', { angle: 42, came: 'up', in: true }], // none of its own: 30 to 48 is the longer run
  ['ON after START', { angle: 60, came: 'back', in: true }],
  ['START after ON', { angle: 90, came: 'up', in: true }],
  ['75° after START', { angle: 75, came: 'back', in: true }],
  ['between ON and START after START', { angle: 75, came: 'back', in: true }],
  ['key out', { angle: 0, came: 'back', in: false }],
  ['Key  out', { angle: 0, came: 'back', in: false }],
])('key place %s', (phrase, place) => {
  expect(sound(readKeyPlace(phrase, bench, '--key'))).toEqual(place);
});

test.each([
  ['H4 switch on', 'LOCK, S4 on'], // the coil of K1 is switched, not the lamp itself
  ['Work lamp switch on', 'LOCK, S4 on'],
  ['H4 switch off', 'LOCK, S4 off'],
  ['M3 switch at 2', 'LOCK, S3 at 2'],
  ['M3 switch on', 'LOCK, S3 at 1'],
  ['S3 at 2', 'LOCK, S3 at 2'],
  ['S3 2', 'LOCK, S3 at 2'],
  ['S4 on', 'LOCK, S4 on'],
  ['s4 ON', 'LOCK, S4 on'],
  ['S4 pressed', 'LOCK, S4 on'],
  ['lamp button on', 'LOCK, S4 on'],
  ['brake pressed', 'LOCK, S8 pressed'],
  ['brake switch pressed', 'LOCK, S8 pressed'],
  ['E1 switch on', 'LOCK, S8 pressed'],
  ['left door open', 'LOCK, S14 open'],
  ['Left door switch open', 'LOCK, S14 open'],
  ['in gear', 'LOCK, S9 in gear'],
  ['unplugged X2', 'LOCK, unplugged X2'],
  ['unplug X2', 'LOCK, unplugged X2'],
  ['pulled F3', 'LOCK, pulled F3'],
  ['unplugged F3', 'LOCK, pulled F3'],
  ['pulled K1', 'LOCK, pulled K1'],
  ['bridged S1.30 S1.15', 'LOCK, bridged S1.30 S1.15'],
  ['bridged S1.30 to S1.15', 'LOCK, bridged S1.30 S1.15'],
  ['bridged XE2 ground', 'LOCK, bridged XE2.1 ground'],
  ['engine running', 'LOCK, engine running'],
  ['swapped S1', 'LOCK, swapped S1'],
  ['swapped key switch', 'LOCK, swapped S1'],
  ['at rest', 'LOCK'],
  ['ON, S3 at 2, engine running', 'ON, engine running, S3 at 2'],
  ['S4 on, ON after START, pulled F3', 'ON after START, S4 on, pulled F3'],
  ['ON,S3 at 2,S4 on', 'ON, S4 on, S3 at 2'], // canonical: in the order of the file
  ['ON, S4 on, H4 switch on', 'ON, S4 on'],
  ['ON, pulled F3, pulled F3', 'ON, pulled F3'],
])('scene %s', (phrase, canonical) => {
  expect(sceneText(sound(readScene(phrase, bench, '--key')), bench)).toBe(canonical);
});

// Column, what, and the mends, as a technician reads them.
test.each([
  ['RUN', '1: `RUN` is neither a key place nor a hand action | LOCK; ACC; ON; START'],
  ['ONN', '1: `ONN` is neither a key place nor a hand action | ON'],
  ['key outt', '1: `key outt` is neither a key place nor a hand action | key out'],
  ['200°', '1: 200° is outside the travel of the key, 0° to 95° | 95°'],
  ['75', '1: `75` has no unit | an angle is written with its unit, like this: `60°`; units: °, deg'],
  ['between LOCK and ON', '1: ACC lies between LOCK and ON | between LOCK and ACC; between ACC and ON'],
  ['between ON and ON', '1: there is nothing between ON and ON: they are one detent | between ACC and ON; between ON and START'],
  ['between ON and STRAT', '1: `STRAT` is no position of the key switch | START'],
  ['between ON and START 3', '1: between ON and START the contacts have one stretch | between ON and START'],
  ['ON after ON', '10: `ON` is the same place of the key | ON'],
  ['ON after RUN', '10: `RUN` is no position of the key switch S1 | LOCK; ACC; ON; START'],
  ['door open', '1: `door open` fits 2 switches: S14 (Left door switch), S15 (Right door switch) | S14 open; S15 open'],
  ['E8 switch on', '1: `E8 switch on` fits 2 switches: S14 (Left door switch), S15 (Right door switch) | S14 open; S15 open'],
  ['S3 at 3', '1: S3 has no setting `3` | S3 at 0; S3 at 1; S3 at 2'],
  ['M3 switch at 5', '1: `M3 switch at 5` is neither a key place nor a hand action | M3 switch on'],
  ['T1 switch on', '1: no switch that has to be set lies in series with T1 (Ignition coil) | name the switch itself, like `S4 on`'],
  ['F3 on', '1: F3 (fuse) has nothing to set by hand | pulled F3'],
  ['unplugged X3', '11: the circuit has no part `X3` | unplugged X2'],
  ['unplugged', '10: the part is missing | unplugged G1; unplugged S1; unplugged S4; unplugged H4'],
  ['bridged S1.30', '9: a bridge has two ends, and 1 is said | bridged S1.30 S1.75'],
  ['bridged S1.30 S1.30', '9: both ends of the bridge are S1.30 | bridged S1.30 S1.75'],
  ['bridged S1.30 S1.99', '15: S1 has no terminal `99` | S1.30; S1.75; S1.15; S1.50'],
  ['bridged S1.30 S1', '15: S1 has 4 terminals | S1.30; S1.75; S1.15; S1.50'],
  ['engine runs', '8: `runs` is no state of the engine in a scene | engine stopped; engine cranking; engine running'],
  ['ON, START', '5: the key is said twice and differently: `ON` and `START` | leave out `ON`; leave out `START`'],
  ['ON, S4 on, S4 off', '12: S4 is said twice and differently: `S4 on` and `S4 off` | leave out `S4 on`; leave out `S4 off`'],
  ['ON, , S4 on', '5: a part of the scene is empty | at rest'],
  ['', '1: a part of the scene is empty | at rest'],
])('scene `%s` is told to be wrong', (phrase, told) => {
  const read = readScene(phrase, bench, '--key');
  expect(read.problems.map(inWords).join('\n')).toBe(told);
  expect(read.ok).toBe(false);
});

test('every wrong piece is told at its place', () => {
  const read = readScene('RUN, S4 onn, pulled F9', bench, '--with');
  expect(read.problems.map((p) => [p.file, p.line, p.column, p.length, p.code])).toEqual([
    ['--with', 1, 1, 3, 'unknown-key-place'],
    ['--with', 1, 6, 6, 'unknown-setting'],
    ['--with', 1, 21, 2, 'unknown-part'],
  ]);
});

test('without a key switch a scene is what the hand does', () => {
  expect(sceneText(restScene(keyless), keyless)).toBe('at rest');
  expect(sound(readScene('at rest', keyless, '--key'))).toEqual(restScene(keyless));
  expect(sceneText(sound(readScene('H1 switch on', keyless, '--key')), keyless)).toBe('S1 on');
  expect(readScene('ON', keyless, '--key').ok).toBe(false);
  expect(readKeyPlace('ON', keyless, '--key').problems[0]?.code).toBe('no-key-switch');
});

test('a hand phrase alone', () => {
  expect(sound(readHand('M3 switch at 2', bench, '--with'))).toEqual({ does: 'set', settings: [{ part: 'S3', setting: '2' }] });
});

const some = <T>(list: readonly T[]) => fc.uniqueArray(fc.constantFrom(...list), { maxLength: 3 });
const scenes: fc.Arbitrary<Scene> = fc
  .record({
    angle: fc.oneof(
      fc.constantFrom(0, 30, 60, 75, 78, 90),
      fc.integer({ min: 0, max: 949 }).map((n) => n / 10),
    ),
    came: fc.constantFrom('up' as const, 'back' as const),
    out: fc.boolean(),
    hand: fc.record(
      { S3: fc.constantFrom('0', '1', '2'), S4: fc.constantFrom('off', 'on'), S9: fc.constantFrom('neutral', 'in gear') },
      { requiredKeys: [] },
    ),
    engine: fc.constantFrom('stopped' as const, 'cranking' as const, 'running' as const),
    apart: some(['X2', 'F3', 'K1', 'M3']),
    bridged: some([
      ['S1.30', 'S1.15'],
      ['XE2.1', 'ground'],
      ['X2.1a', 'X2.2b'],
    ] as const),
    swapped: some(['S1', 'G1']),
  })
  .map(({ angle, came, out, ...rest }) => ({
    ...rest,
    key: out ? { angle: 0, came: 'back' as const, in: false } : { angle, came, in: true },
  }));

test('a scene read from its own text is the same scene', () => {
  fc.assert(
    fc.property(scenes, (scene) => {
      expect(sound(readScene(sceneText(scene, bench), bench, '--key'))).toEqual(scene);
    }),
    { seed: 20_261_125, numRuns: 500 },
  );
});

test('no text makes the reader throw, and a refusal always says why', () => {
  const words = [
    'ON',
    'after',
    'between',
    'and',
    'START',
    '75°',
    'key out',
    'S4',
    'on',
    ',',
    'bridged',
    'S1.30',
    'pulled',
    'engine',
    'door',
    'switch',
    'at',
    '2',
    '__proto__',
    'constructor',
    ' ',
  ];
  const texts = fc.oneof(
    fc.string(),
    fc.string({ unit: 'grapheme' }),
    fc.array(fc.constantFrom(...words), { maxLength: 8 }).map((w) => w.join(' ')),
  );
  fc.assert(
    fc.property(texts, (text) => {
      const read = readScene(text, bench, '--key');
      expect(read.ok || read.problems.every((p) => p.what !== '' && p.why !== '' && p.column >= 1 && p.length >= 1)).toBe(true);
    }),
    { seed: 20_261_125, numRuns: 1000 },
  );
});
