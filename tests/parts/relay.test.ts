import { describe, expect, test } from 'vitest';
import { partKinds } from '../../src/parts/index.ts';
import { circuitFrom, exampleOf } from './examples.ts';
import { solved } from './solved.ts';

const relayKind = partKinds.find((k) => k.kind === 'relay')!;

/** A coil on a supply of its own, a lamp behind each contact. */
const bench = (relay: string, volts: number, more = '') =>
  circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: ${volts} V }
  G2: { kind: supply, voltage: 12 V }
  K1: { kind: relay, ${relay} }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: K1.86 }
  - { from: K1.85, to: ground }
  - { from: G2.+, to: K1.30 }
${more}  - { from: H1.2, to: ground }
  - { from: H2.2, to: ground }
  - { from: G1.-, to: ground }
  - { from: G2.-, to: ground }
`);
const make = '  - { from: K1.87, to: H1.1 }\n';
const changeover = `${make}  - { from: K1.87a, to: H2.1 }\n`;

describe('coils of cube relays, makers’ sheets (secondary)', () => {
  // Power as printed, one digit behind the point.
  const coils: readonly (readonly [number, number, number])[] = [
    [12, 85, 1.7],
    [12, 75, 1.9],
  ];
  test.each(coils)('%f V, %f Ω: %f W', (volts, ohm, watt) => {
    const at = solved(bench(`coil: ${ohm} Ω`, volts, make));
    expect(Math.abs(volts * at.amps('K1.coil') - watt)).toBeLessThan(0.05);
  });
  // Highest pull-in and lowest drop-out of the sheets; a relay at its limits must do as the sheet says.
  const limits: readonly (readonly [string, number, number])[] = [
    ['nominal: 12 V, coil: 85 Ω, pull-in: 66 %, drop-out: 12.5 %', 8, 1.5],
    ['nominal: 24 V, coil: 255 Ω, pull-in: 66 %, drop-out: 12.5 %', 16, 3],
    ['nominal: 24 V, coil: 320 Ω, pull-in: 61 %, drop-out: 10 %', 14.8, 2.4],
  ];
  test.each(limits)('%s pulls in at %f V and lets go under %f V', (relay, pulls, drops) => {
    const pulled = solved(bench(relay, pulls, make));
    expect(pulled.verdict('H1')).toBe('works');
    expect(solved(bench(relay, drops * 1.1, make), { states: pulled.point.states }).verdict('H1')).toBe('works');
    expect(solved(bench(relay, drops * 0.9, make), { states: pulled.point.states }).verdict('H1')).toBe('dead');
    expect(solved(bench(relay, drops * 1.1, make)).verdict('H1')).toBe('dead');
  });
  test('10 A lose 15 to 20 mV over a new contact', () => {
    const contact = relayKind.parameters['contact'];
    expect(contact?.as === 'quantity' ? 10 * contact.default! : 0).toBeGreaterThanOrEqual(0.015);
    expect(contact?.as === 'quantity' ? 10 * contact.default! : 1).toBeLessThanOrEqual(0.02);
  });
  test('operates in 5 ms, releases in 3 ms, with a diode three to five times slower (from memory)', () => {
    const delay = (parameters: string, pulled: boolean) =>
      relayKind.timing!.delay!(exampleOf(relayKind, parameters), { pulled: !pulled }, { pulled });
    expect(delay('form: make', true)).toBe(0.005);
    expect(delay('form: make', false)).toBe(0.003);
    const slower = delay('suppression: diode', false) / delay('form: make', false);
    expect(slower).toBeGreaterThanOrEqual(3);
    expect(slower).toBeLessThanOrEqual(5);
  });
});

describe('contacts', () => {
  test('a changeover relay joins 87a at rest and 87 when pulled', () => {
    const rest = solved(bench('form: changeover', 0, changeover));
    expect([rest.verdict('H1'), rest.verdict('H2')]).toEqual(['dead', 'works']);
    const pulled = solved(bench('form: changeover', 12, changeover));
    expect([pulled.verdict('H1'), pulled.verdict('H2')]).toEqual(['works', 'dead']);
  });
  test('a welded make contact keeps the break contact from closing', () => {
    const at = solved(bench('form: changeover', 0, changeover), { faults: ['K1 contact stuck closed'] });
    expect([at.verdict('H1'), at.verdict('H2')]).toEqual(['works', 'dead']);
  });
  test('an open contact leaves the load dead while the coil draws; an open coil leaves both', () => {
    const contact = solved(bench('form: make', 12, make), { faults: ['K1 contact open'] });
    expect(contact.verdict('H1')).toBe('dead');
    expect(contact.amps('K1.coil')).toBeCloseTo(12 / 85, 6);
    const coil = solved(bench('form: make', 12, make), { faults: ['K1.coil open'] });
    expect(coil.verdict('H1')).toBe('dead');
    expect(coil.amps('K1.coil')).toBe(0);
    expect(coil.volts('K1.86', 'K1.85')).toBe(12);
  });
  test('a relay that cuts its own coil chatters', () => {
    const circuit = circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  K1: { kind: relay, form: break }
wires:
  - { from: G1.+, to: K1.30 }
  - { from: K1.87a, to: K1.86 }
  - { from: K1.85, to: G1.- }
  - { from: G1.-, to: ground }
`);
    expect(solved(circuit).point.chatters).toEqual(['K1']);
  });
});

test('a coil diode blocks with 86 plus and shorts the feed the other way round', () => {
  expect(Math.abs(solved(bench('suppression: diode', 12, make)).amps('K1.suppression'))).toBeLessThan(1e-4);
  expect(solved(bench('suppression: diode', -12, make)).amps('K1.suppression')).toBeGreaterThan(50);
});

describe('timed relay', () => {
  const timed = (more: string) => exampleOf(partKinds.find((k) => k.kind === 'timed-relay')!, more);
  const reading = (ampere: number) => ({ across: () => 0, amperes: () => ampere });
  const condition = (state: Readonly<Record<string, number | string>>) =>
    ({ key: undefined, setting: '', engine: 'stopped', ambient: 20, state }) as const;

  test('closes with its control, opens when its time is over, and is ready again after the control went', () => {
    const part = timed('for: 10 s');
    const settle = part.kind.settle!;
    const fed = reading(12 / 85);
    const on = settle(part, condition({ phase: 'rest' }), fed);
    expect(on['phase']).toBe('on');
    expect(settle(part, condition({ ...on, elapsed: 9 }), fed)['phase']).toBe('on');
    expect(settle(part, condition({ ...on, elapsed: 10 }), fed)['phase']).toBe('done');
    expect(settle(part, condition({ phase: 'done', elapsed: 12 }), reading(0))).toMatchObject({ phase: 'rest', elapsed: 0 });
  });
  test('waits before it closes and holds on after, for play', () => {
    const part = timed('after: 2 s, holds: 30 s');
    expect(part.kind.timing!.delay!(part, { phase: 'rest' }, { phase: 'on' })).toBe(2);
    expect(part.kind.timing!.delay!(part, { phase: 'on' }, { phase: 'rest' })).toBe(30);
  });
});

describe('flasher', () => {
  const flashing = (unit: string, ground: boolean) =>
    circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  K1: { kind: flasher${unit} }
  E1: { kind: lamp, power: 21 W }
wires:
  - { from: G1.+, to: K1.49 }
  - { from: K1.49a, to: E1.1 }
  - { from: E1.2, to: ground }
${ground ? '  - { from: K1.31, to: ground }\n' : ''}  - { from: G1.-, to: ground }
`);
  test('a thermal one needs no ground of its own, an electronic one does', () => {
    expect(solved(flashing('', false)).verdict('E1')).toBe('works');
    expect(solved(flashing(', form: electronic', true)).verdict('E1')).toBe('works');
    expect(solved(flashing(', form: electronic', false)).verdict('E1')).toBe('dead');
  });
  test('in a play it beats at its rate, twice as fast with a lamp missing, and waits closed without a lamp', () => {
    const part = flashing('', false).parts.get('K1')!;
    const settle = (state: Readonly<Record<string, number | boolean | string>>, ampere: number) =>
      part.kind.settle!(
        part,
        { key: undefined, setting: '', engine: 'stopped', ambient: 20, state },
        { across: () => 12, amperes: () => ampere },
      );
    const lit = { fed: false, lit: true, fast: false, beats: 0 };
    const dark = settle(lit, 3.5);
    expect(dark).toMatchObject({ lit: false, fast: false });
    // 90 beats a minute, half of each lit: UN R48, 90 ± 30 (from memory).
    expect(part.kind.timing!.delay!(part, lit, dark)).toBeCloseTo(1 / 3, 9);
    expect(settle(dark, 0)).toMatchObject({ lit: true, beats: 1 });
    const missing = settle(lit, 1.75);
    expect(part.kind.timing!.delay!(part, lit, missing)).toBeCloseTo(1 / 6, 9);
    expect(settle(lit, 0)).toBe(lit);
  });
});
