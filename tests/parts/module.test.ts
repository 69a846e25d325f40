import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import type { State } from '../../src/circuit/scene.ts';
import { partKinds } from '../../src/parts/index.ts';
import { circuitOf, solved } from './solved.ts';

/** An engine control unit as in an ordinary injection car; figures invented. */
const control = circuitOf(
  `G1: { kind: supply, voltage: 12.6 V, resistance: 0.01 Ω }
S1: { kind: switch }
S2: { kind: switch }
K1: { kind: relay, coil: 85 Ω }
M1: { kind: pump, draws: 5 A }
A1: { kind: module, pins: { "30": 2 mA, "15": { awake: 0.3 A, after-run: 50 mA }, "50": sense }, outputs: { FP: { to: 31, when: 15 and (50 or engine turning) } } }`,
  [
    'G1.+ A1.30',
    'G1.+ S1.1',
    'S1.2 A1.15',
    'G1.+ S2.1',
    'S2.2 A1.50',
    'G1.+ K1.86',
    'K1.85 A1.FP',
    'G1.+ K1.30',
    'K1.87 M1.1',
    'M1.2 ground',
    'A1.31 ground',
    'G1.- ground',
  ],
);

test('asleep it draws its memory current, awake that of both pins', () => {
  expect(solved(control).amps('A1.30')).toBeCloseTo(0.002, 4);
  expect(solved(control).verdict('A1')).toBe('dead');
  const on = solved(control, { hand: { S1: 'on' } });
  expect(on.amps('A1.15')).toBeCloseTo(0.3, 2);
  expect(on.verdict('A1')).toBe('works');
});

test('an output closes when its condition is met, and pulls its relay', () => {
  const on = { S1: 'on' };
  expect(solved(control, { hand: on }).verdict('M1')).toBe('dead');
  expect(solved(control, { hand: { ...on, S2: 'on' } }).verdict('M1')).toBe('works');
  expect(solved(control, { hand: on, engine: 'running' }).verdict('M1')).toBe('works');
  expect(solved(control, { engine: 'running' }).verdict('M1')).toBe('dead');
});

test('a sense pin takes its volts over 100 kΩ', () => {
  expect(solved(control, { hand: { S2: 'on' } }).amps('A1.50')).toBeCloseTo(12.6 / 100e3, 7);
});

test('faults: output dead, output stuck, module dead, pin open', () => {
  const running = { hand: { S1: 'on' }, engine: 'running' } as const;
  expect(solved(control, { ...running, faults: ['A1.FP dead'] }).verdict('M1')).toBe('dead');
  expect(solved(control, { faults: ['A1.FP stuck on'] }).verdict('M1')).toBe('works');
  expect(solved(control, { ...running, faults: ['A1 dead'] }).verdict('M1')).toBe('dead');
  // Pin 15 broken inside: it still shows volts at the terminal, so the condition still holds.
  expect(solved(control, { ...running, faults: ['A1.15 open'] }).amps('A1.15')).toBeCloseTo(0, 9);
});

test('`stays awake` keeps the awake current with everything switched off', () => {
  const body = circuitOf(
    `G1: { kind: supply, voltage: 12.6 V }
S1: { kind: switch }
A1: { kind: module, pins: { "30": { awake: 450 mA, after-run: 120 mA, asleep: 9 mA }, D1: pull-up } }`,
    ['G1.+ A1.30', 'A1.D1 S1.1', 'S1.2 ground', 'A1.31 ground', 'G1.- ground'],
  );
  const asleep = solved(body);
  expect(asleep.amps('A1.30')).toBeCloseTo(0.009, 4);
  expect(solved(body, { faults: ['A1 stays awake'] }).amps('A1.30')).toBeCloseTo(0.45, 2);
  expect(solved(body, { faults: ['A1 stays in after-run'], states: new Map([['A1', { mode: 'awake' }]]) }).amps('A1.30')).toBeCloseTo(
    0.12,
    2,
  );
  expect(solved(body, { faults: ['A1 draws 0.3 A'] }).amps('A1.30')).toBeCloseTo(0.009, 4); // what is drawn besides is a piece of its own
  const open = solved(body, { hand: { S1: 'on' } });
  expect(open.amps('A1.30')).toBeCloseTo(0.45, 2);
  expect(open.amps('A1.D1')).toBeCloseTo(12.6 / 10e3, 6); // the pull-up, grounded by the switch
});

test('without supply nothing closes, and with it back the module wakes first', () => {
  const always = circuitOf(
    `G1: { kind: supply, voltage: 12 V }
S1: { kind: switch }
A1: { kind: module, pins: { "30": 0.1 A }, outputs: { P: { to: "30", when: always } } }
H1: { kind: lamp, power: 5 W }`,
    ['G1.+ S1.1', 'S1.2 A1.30', 'A1.P H1.1', 'H1.2 ground', 'A1.31 ground', 'G1.- ground'],
  );
  expect(solved(always).verdict('H1')).toBe('dead');
  expect(solved(always, { hand: { S1: 'on' } }).verdict('H1')).toBe('works');
});

test('steps towards sleep wait: awake for the time it stays awake, then after-run; waking does not wait', () => {
  const part = control.parts.get('A1')!;
  const delay = (from: State, to: State) => part.kind.timing!.delay!(part, from, to);
  expect(delay({ mode: 'awake' }, { mode: 'after-run' })).toBe(120);
  expect(delay({ mode: 'after-run' }, { mode: 'asleep' })).toBe(1080);
  expect(delay({ mode: 'asleep' }, { mode: 'awake' })).toBe(0);
  expect(delay({ mode: 'awake', 'closed FP': true }, { mode: 'awake', 'closed FP': false })).toBe(0);
});

test('with the key off an awake module first drops its outputs, then goes to sleep in two steps', () => {
  const running = solved(control, { hand: { S1: 'on' }, engine: 'running' });
  const modes: unknown[] = [];
  let states = running.point.states;
  for (let step = 0; step < 6; step++) {
    const { point } = solved(control, { states, settles: false });
    const part = control.parts.get('A1')!;
    const at = { key: undefined, setting: '', engine: 'stopped' as const, ambient: 20, state: states.get('A1')! };
    const read = {
      across: (a: string, b: string) => volt(point, a) - volt(point, b),
      amperes: (e: string) => point.amperes[point.network.branchOf.get(`A1.${e}`)!]!,
    };
    const next = part.kind.settle!(part, at, read);
    if (next === at.state) break;
    modes.push([next['mode'], next['closed FP']]);
    states = new Map(states).set('A1', next);
  }
  expect(modes).toEqual([
    ['awake', false],
    ['after-run', false],
    ['asleep', false],
  ]);
  function volt(point: typeof running.point, terminal: string): number {
    return point.nodeVolts[point.network.nodeOf.get(`A1.${terminal}`)!]!;
  }
});

test('pins that are not there, and pins asked for ground without a pull-up, are told at their place', () => {
  const text = `title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  A1:
    kind: module
    pins: { "30": 5 mA, KI: sense }
    outputs: { P: { to: 31, when: Kl or KI grounded } }
    awake-when: 15 and
wires:
  - { from: G1.+, to: A1.30 }
`;
  const read = readCircuit(text, 't.yaml', partKinds);
  const told = read.problems.filter((p) => p.severity === 'error').map((p) => `${p.line} ${p.what}`);
  expect(told.some((t) => t.startsWith('8') && t.includes('the condition ends where a pin or a state should follow'))).toBe(true);
  const mended = readCircuit(text.replace('15 and', 'KI'), 't.yaml', partKinds);
  const flaws = mended.problems.filter((p) => p.code === 'part-flaw').map((p) => `${p.line} ${p.what}`);
  expect(flaws).toEqual([
    '7 A1: no pin of the module is named `Kl`',
    '7 A1: `KI` is asked whether it is grounded, but nothing pulls it up: it reads no volts, grounded or open',
  ]);
});
