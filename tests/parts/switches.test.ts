import { describe, expect, test } from 'vitest';
import { partKinds } from '../../src/parts/index.ts';
import { circuitFrom } from './examples.ts';
import { solved } from './solved.ts';

/** A lamp behind one switch. */
const behind = (kind: string, more = '') =>
  circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: ${kind}${more} }
  H1: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.1 }
  - { from: S1.2, to: H1.1 }
  - { from: H1.2, to: ground }
  - { from: G1.-, to: ground }
`);
const lit = (circuit: ReturnType<typeof behind>, setting?: string, ...faults: string[]) =>
  solved(circuit, { hand: setting === undefined ? {} : { S1: setting }, faults }).verdict('H1') === 'works';

describe('sensing switches: what closes them (common practice, no source)', () => {
  test.each([
    ['door-switch', 'shut', 'open', 'open'],
    ['brake-switch', 'released', 'pressed', 'pressed'],
    ['neutral-switch', 'neutral', 'in gear', 'neutral'],
    ['clutch-switch', 'released', 'pressed', 'pressed'],
    ['seat-switch', 'empty', 'occupied', 'occupied'],
    ['inertia-switch', 'set', 'tripped', 'set'],
    ['reverse-switch', 'forward', 'reverse', 'reverse'],
    ['hood-switch', 'shut', 'open', 'open'],
    ['temperature-switch', 'cold', 'hot', 'hot'],
  ])('%s: %s at rest, %s else, closed when %s', (kind, rest, other, closed) => {
    expect(partKinds.find((k) => k.kind === kind)!.settings!(behind(kind).parts.get('S1')!)).toEqual([rest, other]);
    expect(lit(behind(kind))).toBe(closed === rest);
    expect(lit(behind(kind), rest)).toBe(closed === rest);
    expect(lit(behind(kind), other)).toBe(closed === other);
    const turned = behind(kind, `, closed-when: ${closed === rest ? other : rest}`);
    expect(lit(turned, rest)).toBe(closed !== rest);
  });
  test('the oil switch is closed until the engine runs, also while it is cranked', () => {
    const at = (engine: 'stopped' | 'cranking' | 'running') => solved(behind('oil-switch'), { engine }).verdict('H1');
    expect([at('stopped'), at('cranking'), at('running')]).toEqual(['works', 'works', 'dead']);
  });
});

describe('hand switches', () => {
  test('a button open at rest and one closed at rest', () => {
    expect([lit(behind('switch')), lit(behind('switch'), 'on')]).toEqual([false, true]);
    const breaks = behind('switch', ', rest: closed');
    expect([lit(breaks), lit(breaks, 'on')]).toEqual([true, false]);
  });
  test('the isolator is on unless somebody turns it off', () => {
    expect([lit(behind('isolator')), lit(behind('isolator'), 'off')]).toEqual([true, false]);
  });
  test.each([
    ['S1 open', 'on', false],
    ['S1 stuck closed', 'off', true],
    ['S1 200 Ω', 'on', false],
    ['S1 0.1 Ω', 'on', true],
  ] as [string, string, boolean][])('%s, switch %s: lit %s', (fault, setting, works) =>
    expect(lit(behind('switch'), setting, fault)).toBe(works),
  );
});

describe('switch with several positions', () => {
  const lamps = (states: string, more = '') =>
    circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: multi-switch, states: ${states}${more} }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.30 }
  - { from: S1.58, to: H1.1 }
  - { from: S1.56, to: H2.1 }
  - { from: H1.2, to: ground }
  - { from: H2.2, to: ground }
  - { from: G1.-, to: ground }
`);
  const seen = (circuit: ReturnType<typeof lamps>, setting?: string, ...faults: string[]) => {
    const at = solved(circuit, { hand: setting === undefined ? {} : { S1: setting }, faults });
    return `${at.verdict('H1')} ${at.verdict('H2')}`;
  };
  const light = '{ "0": [], "1": [30-58], "2": [30-58, 30-56] }';
  test('joins what its position says, and rests in the first', () => {
    expect(seen(lamps(light))).toBe('dead dead');
    expect(seen(lamps(light), '1')).toBe('works dead');
    expect(seen(lamps(light), '2')).toBe('works works');
  });
  test('rests in `off` or `0` wherever it is written, or where it is told to', () => {
    expect(seen(lamps('{ "1": [30-58], "2": [30-56], off: [] }'))).toBe('dead dead');
    expect(seen(lamps(light, ', rest: "1"'))).toBe('works dead');
  });
  test('one welded contact of it, one open', () => {
    expect(seen(lamps(light), '0', 'S1.30-56 stuck closed')).toBe('dead works');
    expect(seen(lamps(light), '2', 'S1.30-58 open')).toBe('dead works');
  });
});

describe('joints', () => {
  const joined = circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  X1: { kind: connector, pins: 3 }
  XE1: { kind: ground-point, on: body }
  XE2: { kind: ground-point, on: engine }
  H1: { kind: lamp, power: 21 W }
  H2: { kind: lamp, power: 21 W }
wires:
  - { id: W1, from: G1.+, to: H1.1, via: [X1.1] }
  - { from: H1.2, to: XE1 }
  - { id: W2, from: G1.+, to: H2.1, area: 1 mm², length: 2 m }
  - { from: H2.2, to: XE2 }
  - { id: W3, from: block, to: ground }
  - { from: G1.-, to: ground }
`);
  test.each([
    ['X1.1 open', 'dead works'],
    ['X1.1 10 Ω', 'dead works'],
    ['XE1 open', 'dead works'],
    ['XE1 3 Ω', 'weak works'],
    ['XE2 open', 'works dead'],
    ['W3 open', 'works dead'],
    ['W2 open', 'works dead'],
    ['W2 3 Ω', 'works weak'],
    ['W2 leaks 2 kΩ', 'works works'],
    ['W2.2 on H1.2', 'works dead'],
    ['H1 wrong lamp 5 W', 'works works'],
  ])('%s: lamps %s', (fault, seen) => {
    const at = solved(joined, { faults: [fault] });
    expect(`${at.verdict('H1')} ${at.verdict('H2')}`).toBe(seen);
  });
  test('a wire that touches an always live one lights its lamp past a switch', () => {
    expect(lit(behind('switch'), 'off')).toBe(false);
    const circuit = circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.2 Ω }
  S1: { kind: switch }
  H1: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.1 }
  - { id: W2, from: S1.2, to: H1.1, area: 1 mm², length: 1 m }
  - { from: H1.2, to: ground }
  - { from: G1.-, to: ground }
`);
    expect(solved(circuit, { faults: ['W2 short to feed'] }).verdict('H1')).toBe('works');
    expect(solved(circuit, { hand: { S1: 'on' }, faults: ['W2 short to ground'] }).verdict('H1')).toBe('dead');
  });
});
