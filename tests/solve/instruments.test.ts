import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import {
  ammeter,
  type Bench,
  between,
  clamp,
  classVolts,
  isClampable,
  lineAt,
  ohmmeter,
  testLamp,
  voltmeter,
} from '../../src/solve/instruments.ts';

function bench(text: string, hand: Record<string, string> = {}, apart: readonly string[] = []): Bench {
  const read = readCircuit(text, 'test', partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('; '));
  return { circuit: read.value, changes: [], scene: { ...restScene(read.value), hand, apart } };
}

const divider = `
title: Divider
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0 Ω }
  R1: { kind: resistor, resistance: 10000 kΩ }
  R2: { kind: resistor, resistance: 1 Ω }
  S1: { kind: switch }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: G1.+, to: S1.1 }
  - { id: W3, from: S1.2, to: R2.1 }
  - { from: R2.2, to: G1.- }
  - { from: G1.-, to: ground }
`;

test("a voltmeter's own 10 MΩ halves what it reads behind 10 MΩ (Ohm's law)", () => {
  const read = voltmeter(bench(divider), 'R1.2', 'ground');
  expect(read).toMatchObject({ shows: 'volts', floating: false });
  if (read.shows === 'volts') expect(read.volts).toBeCloseTo(6, 9);
});

test('a voltmeter between the ends of a stiff supply reads its voltage', () => {
  const read = voltmeter(bench(divider), 'G1.+', 'ground');
  if (read.shows === 'volts') expect(read.volts).toBeCloseTo(12, 9);
  expect(read.shows).toBe('volts');
});

test('a lead on a terminal that is tied to nothing says so and reads 0 V', () => {
  const floating = divider.replace('- { from: R2.2, to: G1.- }', '');
  const read = voltmeter(bench(floating), 'R2.1', 'ground');
  expect(read).toMatchObject({ shows: 'volts', floating: true });
  if (read.shows === 'volts') expect(Math.abs(read.volts)).toBeLessThan(1e-9);
});

test('a test lamp glows bright on the supply, and stays dark behind 10 MΩ where a voltmeter still reads half', () => {
  const bright = testLamp(bench(divider), 'G1.+', 'ground');
  // 3 W at its rated 12 V is 0.25 A.
  expect(bright).toMatchObject({ shows: 'lamp', brightness: 'bright' });
  if (bright.shows === 'lamp') expect(bright.amperes).toBeCloseTo(0.25, 3);
  expect(testLamp(bench(divider), 'R1.2', 'ground')).toMatchObject({ brightness: 'dark' });
});

test('a clamp reads the current and does not touch it; an ammeter in line adds its shunt', () => {
  const on = bench(divider, { S1: 'on' });
  const clamped = clamp(on, 'R2');
  const inLine = ammeter(on, 'R2');
  if (clamped.shows !== 'amperes' || inLine.shows !== 'amperes') throw new Error('no amperes');
  expect(Math.abs(clamped.amperes)).toBeGreaterThan(11.9);
  expect(inLine.blown).toBe(true); // 11.6 A through a 10 A fuse
  expect(inLine.amperes).toBe(0);
});

test('an ohmmeter refuses a live circuit and says which volts stand where', () => {
  const read = ohmmeter(bench(divider, { S1: 'on' }), 'R2.1', 'ground');
  expect(read.shows).toBe('refusal');
  if (read.shows === 'refusal') {
    expect(read.volts).toBeGreaterThan(11);
    expect(read.at).toBe('R2.1');
  }
});

test('an ohmmeter on a dead circuit reads the resistance, 0 along a joint, and no way as open', () => {
  const dead = bench(divider, {}, ['G1']);
  expect(ohmmeter(dead, 'R2.1', 'R2.2')).toEqual({ shows: 'ohms', ohm: 1 });
  expect(ohmmeter(dead, 'S1.2', 'R2.1')).toEqual({ shows: 'ohms', ohm: 0 });
  expect(ohmmeter(dead, 'S1.1', 'S1.2')).toEqual({ shows: 'ohms', ohm: Number.POSITIVE_INFINITY });
});

const withLamp = (volts: string, ohm: string) => `
title: Lamp behind a resistor
parts:
  G1: { kind: supply, voltage: ${volts}, resistance: 0 Ω }
  R1: { kind: resistor, resistance: ${ohm} }
  R2: { kind: resistor, resistance: 1000 kΩ }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: R1.2, to: R2.1 }
  - { from: R2.2, to: G1.- }
  - { from: G1.-, to: ground }
`;

test.each([
  ['12 V', '10 Ω'],
  ['12 V', '40 Ω'],
  ['24 V', '60 Ω'],
  ['6 V', '6 Ω'],
])('a test lamp on %s behind %s: its volts and those of the resistor add up (Kirchhoff, Ohm), by its own law', (volts, ohm) => {
  const lamp = testLamp(bench(withLamp(volts, ohm)), 'R1.2', 'ground');
  if (lamp.shows !== 'lamp') throw new Error('no lamp');
  const total = Number.parseFloat(volts);
  // Within the steps of its fixed point, and the 12 µA of the 1 MΩ beside it.
  expect(lamp.volts + lamp.amperes * Number.parseFloat(ohm)).toBeCloseTo(total, 2);
  // A filament takes I ~ V^0.55 when it glows (en.wikipedia.org/wiki/Lamp_rerating, secondary), exactly 3 W at the class's volts.
  expect(lamp.amperes).toBeCloseTo((3 / total) * (lamp.volts / total) ** 0.55, 1);
  expect(lamp.brightness).toBe(lamp.volts * lamp.amperes > 1.8 ? 'bright' : 'dim');
});

test.each([
  ['6 V', 6],
  ['8.9 V', 6],
  ['12.6 V', 12],
  ['17 V', 12],
  ['18 V', 24],
  ['25 V', 24],
])('a supply of %s is of the class of %d V', (volts, rated) => {
  expect(classVolts(bench(withLamp(volts, '10 Ω')))).toBe(rated);
});

test('without volts a circuit counts as of 12 V', () => {
  expect(classVolts(bench(withLamp('0 V', '10 Ω')))).toBe(12);
});

test('a clamp round the wires of one terminal reads what flows into the part, ideal wires and supplies too', () => {
  const on = bench(divider, { S1: 'on' });
  const at = (place: string) => {
    const read = clamp(on, place);
    return read.shows === 'amperes' ? read.amperes : Number.NaN;
  };
  // 12 V on 1 Ω and the switch's own 5 mΩ; the 10 MΩ lead nowhere.
  const all = 12 / 1.005;
  expect(at('R2.1')).toBeCloseTo(all, 4);
  expect(at('R2.2')).toBeCloseTo(-all, 4);
  expect(at('W3')).toBeCloseTo(all, 4);
  // What flows into the supply at one pole flows out of it at the other.
  expect([at('G1.-'), at('G1.+')]).toEqual([expect.closeTo(all, 4), expect.closeTo(-all, 4)]);
  expect(at('R1.1')).toBeCloseTo(0, 9);
});

test('an ohmmeter reads between two points of which neither is the body, and refuses where volts stand, telling where', () => {
  const off = bench(divider, { S1: 'off' }, ['G1']);
  expect(ohmmeter(off, 'R2.1', 'R2.2')).toEqual({ shows: 'ohms', ohm: expect.closeTo(1, 9) });
  expect(ohmmeter(off, 'R1.1', 'R1.2')).toEqual({ shows: 'ohms', ohm: expect.closeTo(10e6, 0) });
  expect(ohmmeter(off, 'R1.2', 'R1.1')).toEqual({ shows: 'ohms', ohm: expect.closeTo(10e6, 0) });
  expect(ohmmeter(off, 'R1.1', 'R2.1')).toEqual({ shows: 'ohms', ohm: Number.POSITIVE_INFINITY });
  expect(ohmmeter(bench(divider, { S1: 'on' }), 'R2.1', 'S1.2')).toMatchObject({
    shows: 'refusal',
    volts: expect.closeTo(12 / 1.005, 4),
    at: 'R2.1',
  });
});

test('an ammeter opens a wire or part with one way through, or the only wire of a terminal; of several it asks which', () => {
  const { circuit } = bench(
    divider.replace('  S1: { kind: switch }', '  S1: { kind: switch }\n  K1: { kind: relay }') +
      '  - { from: S1.2, to: K1.86 }\n  - { from: K1.85, to: ground }\n',
  );
  const asked = ['R2', 'W3', 'S1', 'K1', 'R2.1', 'K1.85', 'R2.2', 'G1.+', 'S1.2', 'K1.87'];
  expect(asked.map((place) => lineAt(circuit, place))).toEqual([
    'R2',
    'W3',
    'S1',
    undefined,
    'W3',
    'K1/85-ground',
    'R2/2-G1/-',
    undefined,
    undefined,
    undefined,
  ]);
  expect(['R2', 'K1', 'K1.85', 'R2.1'].map((place) => isClampable(circuit, place))).toEqual([true, false, true, true]);
});

test('an ammeter in line has a shunt of 30 mΩ, in a part and in an ideal wire (Ohm)', () => {
  const one = bench(divider.replace('resistance: 1 Ω', 'resistance: 2 Ω'), { S1: 'on' });
  const at = (read: ReturnType<typeof ammeter>) => (read.shows === 'amperes' ? read.amperes : Number.NaN);
  // The switch has 5 mΩ of its own.
  expect(at(clamp(one, 'R2'))).toBeCloseTo(12 / 2.005, 6);
  expect(at(ammeter(one, 'R2'))).toBeCloseTo(12 / 2.035, 6);
  expect(at(ammeter(one, 'W3'))).toBeCloseTo(12 / 2.035, 6);
  expect(ammeter(one, 'R2')).toMatchObject({ blown: false });
});

test('between two live points a voltmeter reads the difference, with its sign, and says so when its black lead stands on nothing', () => {
  const two =
    divider.replace('R1: { kind: resistor, resistance: 10000 kΩ }', 'R1: { kind: resistor, resistance: 2 Ω }') +
    '  - { from: R1.2, to: R2.1 }\n';
  // 2 Ω over 1 Ω on 12 V: 4 V stand at the middle, by Kirchhoff.
  const read = (red: string, black: string) => voltmeter(bench(two), red, black);
  const volts = (red: string, black: string) => {
    const shown = read(red, black);
    return shown.shows === 'volts' ? shown.volts : Number.NaN;
  };
  expect(volts('G1.+', 'R2.1')).toBeCloseTo(8, 5);
  expect(volts('R2.1', 'G1.+')).toBeCloseTo(-8, 5);
  expect(volts('R2.1', 'ground')).toBeCloseTo(4, 5);
  expect([read('G1.+', 'R2.1'), read('G1.+', 'S1.2')].map((r) => r.shows === 'volts' && r.floating)).toEqual([false, false]);
  const loose = divider
    .replace('- { id: W3, from: S1.2, to: R2.1 }', '- { id: W3, from: S1.2, to: R2.1 }\n  - { from: S1.2, to: ground }')
    .replace('- { from: R2.2, to: G1.- }', '');
  expect(voltmeter(bench(loose, {}, ['W3']), 'G1.+', 'R2.1')).toMatchObject({ floating: true });
  expect(voltmeter(bench(loose, {}, ['W3']), 'R2.1', 'G1.+')).toMatchObject({ floating: true });
});

test('an instrument hangs on a part that stands in the circuit as it is: not on one that is out or exchanged', () => {
  const { circuit, scene } = bench(divider);
  const hung = (more: Partial<Bench['scene']>) => between({ circuit, scene: { ...scene, ...more } }, 'R2.1', 'ground', 10).part;
  expect([hung({}), hung({ apart: ['G1'] }), hung({ swapped: ['G1'] }), hung({ apart: ['R1'], swapped: ['G1'] })]).toEqual([
    'G1',
    'R1',
    'R1',
    'R2',
  ]);
  expect(between({ circuit, scene }, 'R2.1', 'ground', 10).change).toEqual({ do: 'bridge', from: 'R2.1', to: 'ground', ohm: 10 });
  // With the first part unplugged and the second exchanged the reading is the same.
  const on = { ...bench(divider, { S1: 'on' }) };
  const read = voltmeter({ ...on, scene: { ...on.scene, apart: ['R1'], swapped: ['G1'] } }, 'R2.1', 'ground');
  expect(read.shows === 'volts' && read.volts).toBeCloseTo(12 / 1.005, 5);
});

test('the class of a circuit is that of its supply at rest, whatever is unplugged, bridged, switched or turning', () => {
  const classOf = (volts: number, more: Partial<Bench['scene']> = {}, hand = {}) => {
    const made = bench(divider.replace('voltage: 12 V', `voltage: ${volts} V`), hand);
    return classVolts({ ...made, scene: { ...made.scene, ...more } });
  };
  expect([6.3, 8.9, 9, 12.8, 17.9, 18, 25].map((v) => classOf(v))).toEqual([6, 6, 12, 12, 12, 24, 24]);
  expect(classOf(24, { apart: ['G1'] }, { S1: 'on' })).toBe(24);
  expect(classOf(24, { bridged: [['G1.+', 'ground']] })).toBe(24);
  expect(classOf(-24)).toBe(24);
});

test('a lamp is bright over six tenths of its watts, dark up to three hundredths, dim between', () => {
  // Behind a resistance the lamp of 3 W takes less: its share of watts is volts times amperes by its own reading.
  const shown = [1, 5, 10, 20, 40, 80, 160, 320].map((ohm) => {
    const read = testLamp(bench(divider.replace('10000 kΩ', `${ohm} Ω`)), 'R1.2', 'ground');
    return read.shows === 'lamp' ? { word: read.brightness, share: (read.volts * read.amperes) / 3, ohm, read } : undefined;
  });
  for (const lamp of shown) {
    expect(lamp!.word).toBe(lamp!.share > 0.6 ? 'bright' : lamp!.share > 0.03 ? 'dim' : 'dark');
    // Ohm's law round the loop: 12 V less what the resistance takes.
    expect(lamp!.read.volts).toBeCloseTo(12 - lamp!.ohm * lamp!.read.amperes, 3);
  }
  expect(new Set(shown.map((lamp) => lamp!.word))).toEqual(new Set(['bright', 'dim', 'dark']));
  const turned = testLamp(bench(divider.replace('10000 kΩ', '20 Ω')), 'ground', 'R1.2');
  const straight = testLamp(bench(divider.replace('10000 kΩ', '20 Ω')), 'R1.2', 'ground');
  if (turned.shows !== 'lamp' || straight.shows !== 'lamp') throw new Error('no lamp');
  expect([turned.brightness, turned.volts, turned.amperes]).toEqual([
    straight.brightness,
    expect.closeTo(-straight.volts, 6),
    expect.closeTo(-straight.amperes, 6),
  ]);
});
