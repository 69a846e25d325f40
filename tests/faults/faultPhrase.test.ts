import fc from 'fast-check';
import { expect, test } from 'vitest';
import { changesOf, faultOf } from '../../src/faults/fault.ts';
import { faultModes, faultsOf, suspectName } from '../../src/faults/faultModes.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { network } from '../../src/solve/network.ts';
import { bench, inWords, library, libraryNames, sound } from '../circuit/phraseCircuit.ts';

const circuits = libraryNames.map((name) => ({ name, circuit: library(name) }));
const van = circuits.find((c) => c.name === 'light-van')!.circuit;

// The phrases of the contract, on circuits that have such parts; F1 stands for F3 and so on where the part differs.
test.each([
  ['F3 blown', 'F3 blown'],
  ['W9 open', 'W9 open'],
  ['W9 0.8 Ω', 'W9 0.8 Ω'],
  ['W9 0.8 ohm', 'W9 0.8 Ω'],
  ['W9 800 mΩ', 'W9 0.8 Ω'],
  ['w9 OPEN', 'W9 open'],
  ['S1.30-15 open', 'S1.30-15 open'],
  ['S1.15-30 open', 'S1.30-15 open'],
  ['S1.30-15 open at ON', 'S1.30-15 open at ON'],
  ['S1.30-15  open   at on', 'S1.30-15 open at ON'],
  ['S1.30-75 stuck closed', 'S1.30-75 stuck closed'],
  ['S1.30-50 comes and goes 40 %', 'S1.30-50 comes and goes 40 %'],
  ['S1.30-50 comes and goes', 'S1.30-50 comes and goes 40 %'],
  ['S1.30-50 comes and goes 15%', 'S1.30-50 comes and goes 15 %'],
  ['S1.30-15 0.5 Ω', 'S1.30-15 0.5 Ω'],
  ['S1.15-75 bridged 20 Ω', 'S1.15-75 bridged 20 Ω'],
  ['S1.75-15 bridged 20 Ω', 'S1.15-75 bridged 20 Ω'],
  ['S1 lost motion 12°', 'S1 lost motion 12°'],
  ['S1 spring weak', 'S1 spring weak 15°'],
  ['S1.30-15 shifted -10°', 'S1.30-15 shifted -10°'],
  ['XE2 0.5 Ω', 'XE2 0.5 Ω'],
  ['W9 short to ground', 'W9 short to ground'],
  ['W9 short to feed', 'W9 short to feed'],
  ['W9 leaks 2 kΩ', 'W9 leaks 2 kΩ'],
  ['G2 diode leaks 0.4 A', 'G2 diode leaks 400 mA'],
  ['X2.1 0.3 Ω', 'X2.1 0.3 Ω'],
  ['X2.1-2 bridged 50 Ω', 'X2.1-2 bridged 50 Ω'],
  ['W9.2 on R1.1', 'W9.2 on R1.1'],
  ['w9.2 ON r1.1', 'W9.2 on R1.1'],
  ['W9.2 on XE2', 'W9.2 on XE2.1'],
  ['Ballast open', 'R1 open'],
  ['ignition coil open', 'T1 open'],
])('van: %s', (phrase, canonical) => {
  expect(sound(readFault(phrase, van)).phrase).toBe(canonical);
});

test.each([
  ['saloon', 'K1 contact stuck closed'],
  ['saloon', 'K1.coil open'],
])('%s: %s', (name, phrase) => {
  expect(sound(readFault(phrase, circuits.find((c) => c.name === name)!.circuit)).phrase).toBe(phrase);
});

test('a module that stays awake', () => {
  const awake = circuits.flatMap(({ circuit }) =>
    faultsOf(circuit)
      .filter((f) => f.mode === 'stays awake')
      .map((f) => ({ circuit, f })),
  );
  expect(awake.length).toBeGreaterThan(0);
  for (const { circuit, f } of awake) expect(sound(readFault(f.fault, circuit)).phrase).toBe(f.fault);
});

// Column, what, and the mends, as a technician reads them.
test.each([
  ['F9 blown', '1: the circuit has no part `F9` | F3 blown'],
  ['gibberish', '1: the circuit has no part `gibberish` | every fault that fits: `detent faults FILE`'],
  ['', '1: the fault is missing | G1 open; G1 0.5 Ω; G1 comes and goes 40 %; S1.30-75 open at ACC'],
  ['F3', '1: `F3` alone does not say what is wrong with it | '],
  ['F3 bloown', '4: `bloown` is no fault of F3 | F3 blown'],
  ['F3 blown 3 Ω', '10: `F3 blown` takes no figure | F3 blown'],
  [
    'S1 open',
    '4: S1 has several pieces, and `S1 open` does not say which | S1.30-75 open; S1.30-15 open; S1.30-50 open; S1.30-75 open at ON',
  ],
  ['S1.15 open', '1: S1 has no piece `15` that can fail | S1.30-15 open; S1.30-15 open at ON; S1.30-15 open at START'],
  ['S1 weak spring', '4: `weak spring` is no fault of S1 | S1 spring weak 15°'],
  ['S1.30-15 open at RUN', '15: `at RUN` says nothing about `S1.30-15 open` | S1.30-15 open at ON; S1.30-15 open at START'],
  ['S1.30-75 stuck open', '10: `stuck open` is no fault of S1.30-75 | S1.30-75 stuck closed'],
  ['S1 lost motion', '1: `S1 lost motion` needs a figure behind it | S1 lost motion 12°'],
  ['S1 lost motion 12 Ω', '16: `12 Ω` is a resistance, not an angle | S1 lost motion 12°'],
  ['W9 0,8 Ω', '4: `0,8 Ω` has a comma, and a resistance is written with a decimal point | W9 0.8 Ω'],
  ['W9 5 V', '4: `5 V` is a voltage, not a resistance | W9 0.5 Ω'],
  ['W9 5', '4: `5` has no unit | W9 0.5 Ω'],
  ['S1.30-50 comes and goes 400 %', '25: 400 % is outside 1 % to 99 % | S1.30-50 comes and goes 99 %'],
  ['W3 open', '1: wire W3 passes connectors, so it is in pieces here | W3a open; W3b open'],
  ['W3.2 on R1.1', '1: wire W3 passes connectors, so it is in pieces here | W3a.1 on R1.1; W3b.2 on R1.1'],
  ['W9.3 on R1.1', '1: `W9.3` does not say which end of wire W9 | W9.1 on R1.1; W9.2 on R1.1'],
  ['W9.2 on M3.1', '9: W9.2 belongs on M3.1 | '],
  ['W9.2 on W9.1', '9: W9.1 is an end of the same wire | '],
  ['W9.2 on Q.1', '9: the circuit has no terminal `Q.1` | written like `G1.+`'],
  ['K1.86 on J1', "1: K1 is no wire; only a wire's end can be on another terminal | S4/2-K1/86.2 on J1"],
  ['J1 open', '1: J1 (splice) has no fault of its own; its joints fail with the wires that end there | W1 open; W3a open; W4 open'],
  ['Work lamp on K1.30', '11: `on K1.30` is no fault of H4 | '],
  ['W9.25 on fire', '1: W9 has no piece `25` that can fail | W9 0.5 Ω'],
  ['X2 open', '1: X2 has several pieces, and `X2 open` does not say which | X2.1 open; X2.2 open; X2.1 0.5 Ω; X2.2 0.5 Ω'],
  ['X2.9 open', '1: X2 has no piece `9` that can fail | X2.1 open; X2.2 open'],
  ['S3.a open', '1: S3 has no piece `a` that can fail | S3.30-a open; S3.30-a 0.5 Ω; S3.30-a stuck closed; S3.30-a comes and goes 40 %'],
  ['Ballast.1 on S1.15', "1: only a wire's end can be on another terminal | W5b.2 on S1.15; W6.1 on S1.15"],
  ['R1.1 on S1.15', "1: R1 is no wire; only a wire's end can be on another terminal | W5b.2 on S1.15"],
  ['K1.87a on J1', "1: K1 is no wire; only a wire's end can be on another terminal | name the end of a wire, such as `W9.2`"],
  ['W9. on R1.1', '1: `W9.` does not say which end of wire W9 | W9.1 on R1.1; W9.2 on R1.1'],
  ['W12 open', '1: the circuit has no part `W12` | W1 open; W2 open; W10 open; W11 open'],
  ['W9 comes', '4: `comes` is no fault of W9 | W9 comes and goes 40 %'],
])('`%s` is told to be wrong', (phrase, told) => {
  const read = readFault(phrase, bench);
  expect(read.ok).toBe(false);
  for (const p of read.problems) {
    expect(p.file).toBe('--fault');
    expect(['unknown-fault', 'unknown-part', 'unknown-terminal', 'fault-figure']).toContain(p.code);
  }
  const [first = ''] = read.problems.map(inWords);
  // Where more mends follow, only the nearest are fixed here.
  expect(first.slice(0, told.length)).toBe(told);
});

test('either end of a wire is moved: `from` is the first', () => {
  const moved = (phrase: string) => changesOf([sound(readFault(phrase, bench))]).map((c) => c.change);
  expect(moved('W9.1 on R1.1')).toEqual([{ do: 'attach', end: 1, terminal: 'R1.1' }]);
  expect(moved('W9.2 on R1.1')).toEqual([{ do: 'attach', end: 2, terminal: 'R1.1' }]);
});

test.each(circuits)('$name: every listed fault reads back as itself, and no two share a phrase', ({ circuit }) => {
  const seen = new Set<string>();
  for (const { part, mode } of faultModes(circuit)) {
    for (const detail of [undefined, ...(mode.detail?.grades ?? [])]) {
      const fault = faultOf(part, mode, detail);
      const read = sound(readFault(fault.phrase, circuit));
      expect(read.phrase).toBe(fault.phrase);
      expect([read.part, read.mode]).toEqual([part, mode]);
      expect(Math.abs(read.detail - fault.detail)).toBeLessThanOrEqual(1e-11 * Math.abs(fault.detail));
    }
    expect(seen.has(suspectName(mode))).toBe(false);
    seen.add(suspectName(mode));
    expect(circuit.parts.has(part)).toBe(true);
    expect(mode.subject === part || mode.subject.startsWith(`${part}.`)).toBe(true);
    expect(mode.weight).toBeGreaterThan(0);
    expect(mode.source).not.toBe('');
    expect(mode.text).not.toMatch(/\.$/);
  }
});

test.each(circuits)('$name: every change finds the element and the terminals that it names', ({ circuit }) => {
  const healthy = network(circuit);
  for (const { part, mode } of faultModes(circuit))
    for (const { change } of changesOf([faultOf(part, mode)])) {
      const where = `${mode.subject} ${mode.words}`;
      if (change.do === 'series' || change.do === 'fix') {
        const own = healthy.circuit.parts.get(part)!;
        const rest = own.kind.settings?.(own)[0] ?? '';
        const elements = own.kind.elements(own, {
          key: undefined,
          setting: rest,
          engine: 'stopped',
          ambient: 20,
          state: own.kind.initial?.(own) ?? {},
        });
        expect(
          elements.map((e) => e.id),
          where,
        ).toContain(change.element);
      }
      if (change.do === 'bridge' || change.do === 'draw')
        for (const t of [change.from, change.to]) expect(healthy.nodeOf.has(t) || t === 'ground', `${where}: ${t}`).toBe(true);
      if (change.do === 'attach') expect(healthy.nodeOf.has(change.terminal), where).toBe(true);
    }
});

test('there are at least 25 ways to fail', () => {
  const ways = new Set(circuits.flatMap(({ circuit }) => faultsOf(circuit).map((f) => f.mode.replace(/ (at|on) \S+$/, ''))));
  expect(ways.size).toBeGreaterThanOrEqual(25);
});

test('a fault phrase with a letter or word changed is read or refused in words, and never throws', () => {
  const phrases = faultsOf(van).map((f) => f.fault);
  const noise = fc.oneof(
    fc.string({ maxLength: 4 }),
    fc.string({ unit: 'grapheme', maxLength: 3 }),
    fc.constantFrom(' on ', ' open', '°', ',', '.', '-', '__proto__', 'W9.'),
  );
  const mutated = fc
    .tuple(fc.constantFrom(...phrases), fc.nat({ max: 30 }), fc.nat({ max: 4 }), noise)
    .map(([phrase, at, gone, put]) => phrase.slice(0, at) + put + phrase.slice(at + gone));
  let refused = 0;
  fc.assert(
    fc.property(mutated, (text) => {
      const read = readFault(text, van);
      if (read.ok) expect(sound(readFault(read.value.phrase, van)).phrase).toBe(read.value.phrase);
      else {
        refused++;
        expect(read.problems.every((p) => p.what !== '' && p.why !== '' && p.column >= 1 && p.length >= 1 && p.mend.length <= 4)).toBe(
          true,
        );
      }
    }),
    { seed: 20_261_125, numRuns: 1500 },
  );
  expect(refused).toBeGreaterThan(500);
});

test.each(['S1 on fire', 'S1.30 on fire', 'W9 on fire', 'K1 on fire'])('%s: what is offered is of the same part, and reads', (phrase) => {
  const read = readFault(phrase, bench);
  const mends = read.problems.flatMap((p) => p.mend);
  expect(mends.length).toBeGreaterThan(0);
  for (const mend of mends) expect([mend.split(/[ .]/)[0], readFault(mend, bench).ok]).toEqual([phrase.split(/[ .]/)[0], true]);
});
