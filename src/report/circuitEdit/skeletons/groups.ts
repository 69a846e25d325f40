/**
 * A piece of a skeleton that can be struck out as a whole: its parts, and the wires that tie it to 30 (J1), 15 (J2),
 * 75 (J3) and the ground point of the body (XE1). Sizes, lengths and draws are typical for the kind: common practice, no source.
 */
export type Group = { readonly name: string; readonly parts: readonly string[]; readonly wires: readonly string[] };

/** Loads are written for 12 V; other vehicles say theirs. */
const at = (volts: number): string => (volts === 12 ? '' : `, at: ${volts} V`);
/** A draw that is meant at 12 V, at the same power. */
const draw = (amperes: number, volts: number): string => `${(amperes * 12) / volts} A`;
/** The same power takes less current, and so less wire and fuse, at 24 V. */
const fuse = (amperes: number, volts: number): string => `${Math.max(3, Math.ceil((amperes * 12) / volts))} A`;

export const headlamps = (volts: number): Group => ({
  name: 'Head and tail lamps',
  parts: [
    'S2: { kind: multi-switch, states: { "off": [], side: [30-58], head: [30-58, 30-56] }, name: Lamp switch, place: dash }',
    `F1: { kind: fuse, rating: ${fuse(15, volts)}, name: Fuse of the headlamps }`,
    `F2: { kind: fuse, rating: ${fuse(7.5, volts)}, name: Fuse of the side lamps }`,
    `E1: { kind: lamp, power: 55 W${at(volts)}, name: Headlamp left, place: front }`,
    `E2: { kind: lamp, power: 55 W${at(volts)}, name: Headlamp right, place: front }`,
    `E3: { kind: lamp, power: 5 W${at(volts)}, name: Tail lamp left, place: rear }`,
    `E4: { kind: lamp, power: 5 W${at(volts)}, name: Tail lamp right, place: rear }`,
  ],
  wires: [
    'from: J1, to: S2.30, area: 4 mm², length: 0.6 m, colour: RD',
    'from: S2.56, to: F1.1, area: 2.5 mm², length: 0.5 m, colour: WH',
    'from: S2.58, to: F2.1, area: 1.5 mm², length: 0.5 m, colour: GY',
    'from: F1.2, to: E1.1, area: 1.5 mm², length: 2 m, colour: YE',
    'from: F1.2, to: E2.1, area: 1.5 mm², length: 2.4 m, colour: YE',
    'from: F2.2, to: E3.1, area: 0.75 mm², length: 4 m, colour: GY/BK',
    'from: F2.2, to: E4.1, area: 0.75 mm², length: 4 m, colour: GY/RD',
    ...['E1', 'E2', 'E3', 'E4'].map((id) => `from: ${id}.2, to: XE1, area: 1.5 mm², length: 0.5 m, colour: BN`),
  ],
});

export const brakeLamps = (volts: number, lamps: 1 | 2 = 2): Group => ({
  name: 'Brake lamps',
  parts: [
    `F3: { kind: fuse, rating: ${fuse(8, volts)}, name: Fuse of the brake lamps }`,
    'S3: { kind: brake-switch, name: Brake lamp switch, place: pedals }',
    ...['E5', 'E6']
      .slice(0, lamps)
      .map(
        (id, k) =>
          `${id}: { kind: lamp, power: 21 W${at(volts)}, name: Brake lamp${lamps === 1 ? '' : k === 0 ? ' left' : ' right'}, place: rear }`,
      ),
  ],
  wires: [
    'from: J2, to: F3.1, area: 1.5 mm², length: 0.3 m, colour: BK',
    'from: F3.2, to: S3.1, area: 1 mm², length: 0.8 m, colour: BK/RD',
    ...['E5', 'E6']
      .slice(0, lamps)
      .flatMap((id) => [
        `from: S3.2, to: ${id}.1, area: 1 mm², length: 3.5 m, colour: BK/RD`,
        `from: ${id}.2, to: XE1, area: 1 mm², length: 0.5 m, colour: BN`,
      ]),
  ],
});

export const directionLamps = (volts: number): Group => ({
  name: 'Direction lamps',
  parts: [
    `F4: { kind: fuse, rating: ${fuse(8, volts)}, name: Fuse of the direction lamps }`,
    `K1: { kind: flasher, name: Flasher unit, place: under the dash }`,
    'S4: { kind: multi-switch, states: { mid: [], left: [49a-L], right: [49a-R] }, name: Direction switch, place: steering column }',
    `E7: { kind: lamp, power: 42 W${at(volts)}, name: Direction lamps left }`,
    `E8: { kind: lamp, power: 42 W${at(volts)}, name: Direction lamps right }`,
  ],
  wires: [
    'from: J2, to: F4.1, area: 1.5 mm², length: 0.3 m, colour: BK',
    'from: F4.2, to: K1.49, area: 1 mm², length: 0.4 m, colour: BK/BU',
    'from: K1.31, to: XE1, area: 0.75 mm², length: 0.4 m, colour: BN',
    'from: K1.49a, to: S4.49a, area: 1 mm², length: 0.6 m, colour: BK/GN',
    'from: S4.L, to: E7.1, area: 1 mm², length: 3 m, colour: BK/WH',
    'from: S4.R, to: E8.1, area: 1 mm², length: 3 m, colour: BK/GN',
    'from: E7.2, to: XE1, area: 1 mm², length: 0.5 m, colour: BN',
    'from: E8.2, to: XE1, area: 1 mm², length: 0.5 m, colour: BN',
  ],
});

/** @param from where its fuse hangs: J1 on 30, J2 on 15 */
export const horn = (volts: number, from: 'J1' | 'J2' = 'J1'): Group => ({
  name: 'Horn',
  parts: [
    `F5: { kind: fuse, rating: ${fuse(10, volts)}, name: Fuse of the horn }`,
    `B1: { kind: horn, draws: ${draw(4, volts)}${at(volts)}, name: Horn, place: front }`,
    'S5: { kind: switch, name: Horn button }',
  ],
  wires: [
    `from: ${from}, to: F5.1, area: 1.5 mm², length: 0.3 m, colour: RD`,
    'from: F5.2, to: B1.1, area: 1.5 mm², length: 1.8 m, colour: RD',
    'from: B1.2, to: S5.1, area: 1 mm², length: 2 m, colour: BN',
    'from: S5.2, to: XE1, area: 1 mm², length: 0.5 m, colour: BN',
  ],
});

export const blower = (volts: number): Group => ({
  name: 'Blower',
  parts: [
    `F6: { kind: fuse, rating: ${fuse(16, volts)}, name: Fuse of the blower }`,
    'S6: { kind: switch, name: Blower switch, place: dash }',
    `M2: { kind: blower, draws: ${draw(6, volts)}${at(volts)}, name: Blower, place: under the dash }`,
  ],
  wires: [
    'from: J3, to: F6.1, area: 2.5 mm², length: 0.3 m, colour: BK/RD',
    'from: F6.2, to: S6.1, area: 1.5 mm², length: 0.5 m, colour: BK/YE',
    'from: S6.2, to: M2.1, area: 1.5 mm², length: 0.8 m, colour: BK/YE',
    'from: M2.2, to: XE1, area: 1.5 mm², length: 0.5 m, colour: BN',
  ],
});

export const wiper = (volts: number): Group => ({
  name: 'Wiper',
  parts: [
    `F7: { kind: fuse, rating: ${fuse(10, volts)}, name: Fuse of the wiper }`,
    'S7: { kind: switch, name: Wiper switch, place: dash }',
    `M3: { kind: motor, draws: ${draw(3.5, volts)}${at(volts)}, name: Wiper, place: bulkhead }`,
  ],
  wires: [
    'from: J3, to: F7.1, area: 1.5 mm², length: 0.3 m, colour: BK/RD',
    'from: F7.2, to: S7.1, area: 1.5 mm², length: 0.6 m, colour: GN',
    'from: S7.2, to: M3.1, area: 1.5 mm², length: 0.9 m, colour: GN',
    'from: M3.2, to: XE1, area: 1.5 mm², length: 0.6 m, colour: BN',
  ],
});

export const radio: Group = {
  name: 'Radio',
  parts: ['F8: { kind: fuse, rating: 5 A, name: Fuse of the radio memory }', 'A1: { kind: radio, name: Radio, place: dash }'],
  wires: [
    'from: J1, to: F8.1, area: 1 mm², length: 0.3 m, colour: RD',
    'from: F8.2, to: A1.30, area: 1 mm², length: 0.5 m, colour: RD',
    'from: J3, to: A1.75, area: 1 mm², length: 0.5 m, colour: VT',
    'from: A1.31, to: XE1, area: 1 mm², length: 0.4 m, colour: BN',
  ],
};

export const oilLamp = (volts: number): Group => ({
  name: 'Oil lamp',
  parts: [
    `H2: { kind: lamp, power: 1.2 W${at(volts)}, name: Oil lamp, place: instrument panel }`,
    'S8: { kind: oil-switch, name: Oil pressure switch, place: engine }',
  ],
  wires: [
    'from: J2, to: H2.1, area: 0.75 mm², length: 0.4 m, colour: BK',
    'from: H2.2, to: S8.1, area: 0.75 mm², length: 1.9 m, colour: BN/GN',
    'from: S8.2, to: block',
  ],
});

export const interiorLamp = (volts: number): Group => ({
  name: 'Interior lamp',
  parts: [
    `F9: { kind: fuse, rating: 5 A, name: Fuse of the interior lamp }`,
    `E9: { kind: lamp, power: 5 W${at(volts)}, name: Interior lamp, place: cabin }`,
    'S9: { kind: door-switch, name: Door switch, place: cabin }',
  ],
  wires: [
    'from: J1, to: F9.1, area: 1 mm², length: 0.3 m, colour: RD',
    'from: F9.2, to: E9.1, area: 0.75 mm², length: 1 m, colour: RD',
    'from: E9.2, to: S9.1, area: 0.75 mm², length: 1.2 m, colour: BN',
    'from: S9.2, to: XE1, area: 0.75 mm², length: 0.5 m, colour: BN',
  ],
});

export const charging = (volts: number, rated: number): Group => ({
  name: 'Alternator and charge lamp',
  parts: [
    `G2: { kind: alternator, voltage: ${volts === 24 ? 28.4 : 14.2} V, rated: ${rated} A, name: Alternator, place: engine }`,
    `H1: { kind: lamp, power: 3 W${at(volts)}, weak-below: 70 %, name: Charge lamp, place: instrument panel }`,
  ],
  wires: [
    'from: G2.B+, to: J1, area: 6 mm², length: 1.2 m, colour: RD',
    'from: G2.31, to: block',
    'from: J2, to: H1.1, area: 0.75 mm², length: 0.4 m, colour: BK',
    'from: H1.2, to: G2.D+, area: 0.75 mm², length: 2.5 m, colour: BU',
  ],
});

export const magnetCharging: Group = {
  name: 'Magnet alternator with regulator',
  parts: [
    'G2: { kind: alternator, voltage: 14.4 V, rated: 14 A, excitation: magnet, leaks: 0.2 mA, name: Magnet alternator, place: engine }',
  ],
  wires: ['from: G2.B+, to: J1, area: 2.5 mm², length: 0.8 m, colour: RD', 'from: G2.31, to: block'],
};
