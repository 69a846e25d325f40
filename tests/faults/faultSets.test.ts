import fc from 'fast-check';
import { expect, test } from 'vitest';
import { clashes } from '../../src/faults/clashes.ts';
import { changesOf, worldsOf } from '../../src/faults/fault.ts';
import { faultsOf } from '../../src/faults/faultModes.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { putOf } from '../../src/faults/putOf.ts';
import { bench, inWords, library, sound } from '../circuit/phraseCircuit.ts';

const faults = (...phrases: readonly string[]) => phrases.map((p) => sound(readFault(p, bench)));

test.each([
  [['W9 open', 'W9 open'], '1: `W9 open` is put in twice | leave out `W9 open`'],
  [['W9 0.8 Ω', 'W9 2 Ω'], '1: `W9 0.8 Ω` and `W9 2 Ω` are the same fault in two degrees | leave out `W9 2 Ω`'],
  [['W9 open', 'W9 0.8 Ω'], '1: `W9 open` and `W9 0.8 Ω` cannot both be | leave out `W9 open`; leave out `W9 0.8 Ω`'],
  [
    ['S1.30-15 open', 'S1.30-15 stuck closed'],
    '1: `S1.30-15 open` and `S1.30-15 stuck closed` cannot both be | leave out `S1.30-15 open`; leave out `S1.30-15 stuck closed`',
  ],
  [
    ['S1.30-15 stuck closed', 'S1.30-15 open at ON'],
    '1: `S1.30-15 stuck closed` and `S1.30-15 open at ON` cannot both be | leave out `S1.30-15 stuck closed`; leave out `S1.30-15 open at ON`',
  ],
  [
    ['W9.2 on R1.1', 'W9.2 on J1'],
    '1: `W9.2 on R1.1` and `W9.2 on J1.1` cannot both be | leave out `W9.2 on R1.1`; leave out `W9.2 on J1.1`',
  ],
])('%s cannot be put in together', (phrases, told) => {
  expect(clashes(faults(...phrases)).map(inWords)).toEqual([told]);
});

test.each([
  [['W9 open', 'W4 open']],
  [['S1.30-15 open', 'S1.30-75 open']],
  [['S1.30-15 open at ON', 'S1.30-75 open at ON', 'S1 lost motion 12°', 'S1 spring weak 8°']],
  [['S1.30-75 stuck closed', 'S1.15-75 bridged 20 Ω']],
  [['W9 0.8 Ω', 'W9 short to ground']],
  [['W9 open', 'W9.2 on J1']],
])('%s can be put in together', (phrases) => {
  expect(clashes(faults(...phrases))).toEqual([]);
});

test('every later fault that clashes is told once', () => {
  expect(clashes(faults('W9 open', 'W4 open', 'W9 open', 'W4 1 Ω')).map((p) => p.code)).toEqual(['fault-twice', 'faults-exclude']);
});

test('changes carry the part whose elements they name', () => {
  expect(changesOf(faults('S1.30-15 0.5 Ω', 'W9.2 on R1.1'))).toEqual([
    { part: 'S1', change: { do: 'series', element: '30-15', ohm: 0.5 } },
    { part: 'W9', change: { do: 'attach', end: 2, terminal: 'R1.1' } },
  ]);
});

test('a fault that comes and goes makes a world with it and one without, for its share of the time', () => {
  const open = { part: 'S1', change: { do: 'series', element: '30-50', ohm: Number.POSITIVE_INFINITY } };
  const blown = { part: 'F3', change: { do: 'series', element: '', ohm: Number.POSITIVE_INFINITY } };
  expect(worldsOf(faults('F3 blown', 'S1.30-50 comes and goes 40 %'))).toEqual([
    { share: 0.6, changes: [blown] },
    { share: 0.4, changes: [blown, open] },
  ]);
  expect(worldsOf([])).toEqual([{ share: 1, changes: [] }]);
});

test('a play takes what is always there apart from what comes and goes, each for its own share', () => {
  const open = (part: string, element = '') => [{ part, change: { do: 'series', element, ohm: Number.POSITIVE_INFINITY } }];
  expect(putOf(faults('W9 open', 'S1.30-50 comes and goes 40 %', 'F3 blown', 'W4 comes and goes 5 %'))).toEqual({
    changes: [...open('W9'), ...open('F3')],
    sometimes: [
      { share: 0.4, changes: open('S1', '30-50') },
      { share: 0.05, changes: open('W4') },
    ],
  });
  expect(putOf([])).toEqual({ changes: [], sometimes: [] });
  // A fault made elsewhere than by a phrase may hold any number: no share is under 0 or over 1.
  const [w4] = faults('W4 comes and goes 5 %');
  const shares = [-0.5, 1.5].map((detail) => putOf([{ ...w4!, detail }]).sometimes[0]?.share);
  expect(shares).toEqual([0, 1]);
});

test('shares of the worlds sum to one, and each fault is there for its share of them', () => {
  const subjects = ['W1', 'W4', 'W6', 'W7', 'W9', 'W10', 'W11', 'F3'];
  const several = fc.uniqueArray(fc.tuple(fc.constantFrom(...subjects), fc.integer({ min: 1, max: 99 })), {
    maxLength: 8,
    selector: ([s]) => s,
  });
  fc.assert(
    fc.property(several, (list) => {
      const set = faults(...list.map(([s, share]) => `${s} comes and goes ${share} %`));
      const worlds = worldsOf(set);
      expect(worlds.length).toBe(2 ** Math.min(6, set.length));
      expect(worlds.reduce((sum, w) => sum + w.share, 0)).toBeCloseTo(1, 12);
      for (const f of set.slice(0, 6)) {
        const there = worlds.filter((w) => w.changes.some((c) => c.part === f.part)).reduce((sum, w) => sum + w.share, 0);
        expect(there).toBeCloseTo(f.detail, 12);
      }
    }),
    { seed: 20_261_125, numRuns: 100 },
  );
});

test('an accessory on the wrong feed and wires exchanged at the key switch are suspects of the van', () => {
  const listed = faultsOf(library('light-van'));
  // The radio hangs on 75 behind its fuse; fitted to 30 it plays with the key out.
  const radio = listed.filter((f) => f.text.startsWith('Radio is fed from S1.30 instead of'));
  expect(radio.map((f) => f.fault)).toEqual([`${radio[0]?.part}.1 on S1.30`]);
  const exchanged = listed.filter((f) => f.text.endsWith('is on S1.75 instead of S1.15'));
  expect(exchanged.map((f) => f.fault)).toEqual([`${exchanged[0]?.part}.1 on S1.75`]);
});
