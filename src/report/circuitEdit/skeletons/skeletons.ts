import {
  blower,
  brakeLamps,
  charging,
  directionLamps,
  type Group,
  headlamps,
  horn,
  interiorLamp,
  magnetCharging,
  oilLamp,
  radio,
  wiper,
} from './groups.ts';

/** A circuit to begin with: everything that such a vehicle may have, to strike out what is not there. */
export type Skeleton = {
  readonly name: string;
  readonly title: string;
  readonly text: string;
  /** What can be struck out, with the parts that go. */
  readonly groups: readonly { readonly name: string; readonly parts: readonly string[] }[];
};

type Draft = {
  readonly name: string;
  readonly title: string;
  /** Supply, key switch and what the rest hangs on; cannot be struck out. */
  readonly base: Group;
  readonly groups: readonly Group[];
  readonly engine: string;
};

const key75 =
  'S1: { kind: key-switch, name: Key switch, positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }, contacts: { 30-75: [15..74°], 30-15: [45..105°], 30-50: [78..105°] } }';
const joints = [
  'J1: { kind: splice, name: Joint of 30 }',
  'J2: { kind: splice, name: Joint of 15 }',
  'J3: { kind: splice, name: Joint of 75 }',
];
const points = [
  'XE1: { kind: ground-point, on: body, contact: 0.2 mΩ, name: Ground point of the body }',
  'XE2: { kind: ground-point, on: engine, contact: 0.2 mΩ, name: Engine strap }',
];

function carBase(volts: number, battery: string, starter: string, area: number): Group {
  return {
    name: 'Supply, key switch, starter',
    parts: [
      `G1: { kind: battery, ${volts === 12 ? '' : `voltage: ${volts} V, `}${battery}, name: Battery }`,
      `M1: { kind: starter, ${starter}, name: Starter, place: engine }`,
      key75,
      ...joints,
      ...points,
    ],
    wires: [
      `from: G1.+, to: M1.30, area: ${area} mm², length: 1.2 m, colour: RD`,
      `from: G1.-, to: XE1, area: ${area} mm², length: 0.4 m, colour: BK`,
      `from: XE1, to: XE2, area: ${area} mm², length: 0.5 m, colour: BK`,
      'from: M1.31, to: block',
      'from: M1.30, to: J1, area: 6 mm², length: 1.5 m, colour: RD',
      'from: J1, to: S1.30, area: 6 mm², length: 0.5 m, colour: RD',
      'from: S1.15, to: J2, area: 4 mm², length: 0.5 m, colour: BK',
      'from: S1.75, to: J3, area: 2.5 mm², length: 0.5 m, colour: BK/RD',
      'from: S1.50, to: M1.50, area: 2.5 mm², length: 2.2 m, colour: RD/BK',
    ],
  };
}

const body = (volts: number): readonly Group[] => [
  oilLamp(volts),
  headlamps(volts),
  brakeLamps(volts),
  directionLamps(volts),
  horn(volts),
  blower(volts),
  wiper(volts),
  interiorLamp(volts),
];

const drafts: readonly Draft[] = [
  {
    name: 'petrol-points',
    title: 'Petrol engine with points, 12 V',
    base: carBase(12, 'capacity: 50 Ah, cold-cranking: 420 A', 'bypass: yes', 25),
    groups: [
      {
        name: 'Ignition with points and ballast',
        parts: [
          'R1: { kind: ballast, resistance: 1.5 Ω, name: Ballast }',
          'T1: { kind: coil, resistance: 1.5 Ω, name: Ignition coil }',
          'S10: { kind: points, name: Contact breaker points }',
        ],
        wires: [
          'from: J2, to: R1.1, area: 1.5 mm², length: 1.5 m, colour: BK',
          'from: R1.2, to: T1.15, area: 1.5 mm², length: 0.3 m, colour: GN',
          'from: M1.16, to: T1.15, area: 1.5 mm², length: 1.1 m, colour: VT',
          'from: T1.1, to: S10.1, area: 0.75 mm², length: 0.4 m, colour: GN',
          'from: S10.2, to: block',
        ],
      },
      charging(12, 45),
      ...body(12),
      radio,
    ],
    engine: 'crank: M1, spark: [T1], fuel: [], drives: [G2]',
  },
  {
    name: 'injection',
    title: 'Petrol engine with injection, 12 V',
    base: carBase(12, 'capacity: 60 Ah, cold-cranking: 540 A', 'bypass: no', 25),
    groups: [
      {
        name: 'Ignition module and coil',
        parts: [
          'F10: { kind: fuse, rating: 20 A, name: Fuse of the ignition }',
          'T1: { kind: coil, resistance: 0.8 Ω, name: Ignition coil }',
          'A2: { kind: ignition-module, name: Ignition module }',
        ],
        wires: [
          'from: J2, to: F10.1, area: 2.5 mm², length: 0.3 m, colour: BK',
          'from: F10.2, to: T1.15, area: 1.5 mm², length: 1.5 m, colour: BK',
          'from: F10.2, to: A2.15, area: 1 mm², length: 1.4 m, colour: BK',
          'from: T1.1, to: A2.1, area: 1.5 mm², length: 0.4 m, colour: GN',
          'from: A2.31, to: block',
        ],
      },
      {
        name: 'Fuel pump with relay',
        parts: [
          'F11: { kind: fuse, rating: 15 A, name: Fuse of the fuel pump }',
          'K2: { kind: relay, form: make, name: Pump relay }',
          'S11: { kind: inertia-switch, name: Inertia switch }',
          'M4: { kind: pump, draws: 5 A, name: Fuel pump, place: tank }',
        ],
        wires: [
          'from: J1, to: F11.1, area: 2.5 mm², length: 0.3 m, colour: RD',
          'from: F11.2, to: K2.30, area: 2.5 mm², length: 0.3 m, colour: RD',
          'from: J2, to: K2.86, area: 0.75 mm², length: 0.4 m, colour: BK',
          'from: K2.85, to: XE1, area: 0.75 mm², length: 0.4 m, colour: BN',
          'from: K2.87, to: S11.1, area: 1.5 mm², length: 1 m, colour: GN/YE',
          'from: S11.2, to: M4.1, area: 1.5 mm², length: 3 m, colour: GN/YE',
          'from: M4.2, to: XE1, area: 1.5 mm², length: 0.6 m, colour: BN',
        ],
      },
      charging(12, 70),
      ...body(12),
      radio,
    ],
    engine: 'crank: M1, spark: [T1], fuel: [M4], drives: [G2]',
  },
  {
    name: 'diesel',
    title: 'Diesel engine, 12 V',
    base: carBase(12, 'capacity: 74 Ah, cold-cranking: 680 A', 'cranking: 0.045 Ω', 35),
    groups: [
      {
        name: 'Stop solenoid',
        parts: [
          'F10: { kind: fuse, rating: 10 A, name: Fuse of the stop solenoid }',
          'Y1: { kind: solenoid, resistance: 8 Ω, name: Fuel cut-off, place: injection pump }',
        ],
        wires: [
          'from: J2, to: F10.1, area: 1.5 mm², length: 0.3 m, colour: BK',
          'from: F10.2, to: Y1.1, area: 1 mm², length: 1.5 m, colour: BK',
          'from: Y1.2, to: block',
        ],
      },
      {
        name: 'Glow plugs',
        parts: [
          'F11: { kind: fusible-link, rating: 80 A, name: Link of the glow plugs }',
          'A2: { kind: glow-timer, name: Glow timer }',
          'R2: { kind: glow-plug, name: Glow plug 1 }',
          'R3: { kind: glow-plug, name: Glow plug 2 }',
          'R4: { kind: glow-plug, name: Glow plug 3 }',
          'R5: { kind: glow-plug, name: Glow plug 4 }',
        ],
        wires: [
          'from: M1.30, to: F11.1, area: 16 mm², length: 0.4 m, colour: RD',
          'from: F11.2, to: A2.30, area: 16 mm², length: 0.5 m, colour: RD',
          'from: J2, to: A2.15, area: 0.75 mm², length: 0.6 m, colour: BK',
          'from: A2.31, to: XE1, area: 0.75 mm², length: 0.4 m, colour: BN',
          ...['R2', 'R3', 'R4', 'R5'].flatMap((id) => [
            `from: A2.G, to: ${id}.1, area: 6 mm², length: 0.8 m, colour: BK`,
            `from: ${id}.2, to: block`,
          ]),
        ],
      },
      charging(12, 70),
      ...body(12),
      radio,
    ],
    engine: 'crank: M1, spark: [], fuel: [Y1], drives: [G2]',
  },
  {
    name: 'motorcycle',
    title: 'Motorcycle, 12 V',
    base: {
      name: 'Supply, key switch, starter',
      parts: [
        'G1: { kind: battery, capacity: 9 Ah, cold-cranking: 110 A, resistance: 22 mΩ, name: Battery }',
        'F20: { kind: fuse, rating: 20 A, name: Main fuse }',
        'M1: { kind: motor, draws: 80 A, name: Starter, place: engine }',
        'K3: { kind: relay, form: make, coil: 4.3 Ω, rating: 100 A, short-rating: 150 A, contact: 1 mΩ, name: Start relay }',
        'S1: { kind: key-switch, name: Key switch, positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 60° } }, contacts: { 30-15: [45..75°] } }',
        'S11: { kind: switch, rest: closed, name: Kill switch, place: right bar }',
        'S12: { kind: switch, name: Start button, place: right bar }',
        ...joints.slice(0, 2),
        ...points,
      ],
      wires: [
        'from: G1.+, to: K3.30, area: 10 mm², length: 0.4 m, colour: RD',
        'from: K3.87, to: M1.1, area: 10 mm², length: 0.6 m, colour: BK',
        'from: M1.2, to: block',
        'from: G1.-, to: XE2, area: 10 mm², length: 0.6 m, colour: BK',
        'from: XE1, to: XE2, area: 2.5 mm², length: 0.4 m, colour: BK',
        'from: G1.+, to: F20.1, area: 2.5 mm², length: 0.2 m, colour: RD',
        'from: F20.2, to: J1, area: 2.5 mm², length: 0.6 m, colour: RD',
        'from: J1, to: S1.30, area: 2.5 mm², length: 0.5 m, colour: RD',
        'from: S1.15, to: J2, area: 2.5 mm², length: 0.3 m, colour: BK',
        'from: J2, to: S11.1, area: 1.5 mm², length: 0.6 m, colour: BK',
        'from: S11.2, to: S12.1, area: 1 mm², length: 0.1 m, colour: BK/WH',
        'from: S12.2, to: K3.86, area: 1 mm², length: 1 m, colour: YE/RD',
        'from: K3.85, to: XE1, area: 1 mm², length: 0.4 m, colour: BN',
      ],
    },
    groups: [
      {
        name: 'Ignition module and coil',
        parts: ['A2: { kind: ignition-module, name: Ignition box }', 'T1: { kind: coil, resistance: 3.6 Ω, name: Ignition coil }'],
        wires: [
          'from: S11.2, to: T1.15, area: 1 mm², length: 0.8 m, colour: BK/WH',
          'from: S11.2, to: A2.15, area: 1 mm², length: 0.8 m, colour: BK/WH',
          'from: T1.1, to: A2.1, area: 1 mm², length: 0.4 m, colour: GN',
          'from: A2.31, to: block',
        ],
      },
      magnetCharging,
      {
        name: 'Head and tail lamps',
        parts: [
          'F1: { kind: fuse, rating: 10 A, name: Fuse of the lamps }',
          'E1: { kind: lamp, power: 55 W, name: Headlamp, place: front }',
          'E3: { kind: lamp, power: 5 W, name: Tail lamp, place: rear }',
        ],
        wires: [
          'from: J2, to: F1.1, area: 1.5 mm², length: 0.3 m, colour: BK',
          'from: F1.2, to: E1.1, area: 1.5 mm², length: 0.5 m, colour: YE',
          'from: E1.2, to: XE1, area: 1.5 mm², length: 0.6 m, colour: BN',
          'from: F1.2, to: E3.1, area: 0.75 mm², length: 1.6 m, colour: GY',
          'from: E3.2, to: XE1, area: 0.75 mm², length: 1 m, colour: BN',
        ],
      },
      brakeLamps(12, 1),
      directionLamps(12),
      horn(12, 'J2'),
    ],
    engine: 'crank: M1, spark: [T1], fuel: [], drives: [G2]',
  },
  {
    name: 'boat',
    title: 'Boat with outboard, 12 V',
    base: {
      name: 'Supply, battery switch, key switch, starter',
      parts: [
        'G1: { kind: battery, capacity: 75 Ah, cold-cranking: 550 A, name: Battery }',
        'S20: { kind: isolator, name: Battery switch }',
        'F20: { kind: fuse, rating: 20 A, name: Main fuse }',
        'M1: { kind: motor, draws: 120 A, name: Starter, place: engine }',
        'K3: { kind: relay, form: make, coil: 3.6 Ω, rating: 100 A, short-rating: 200 A, contact: 0.5 mΩ, name: Start relay }',
        'S1: { kind: key-switch, name: Key switch, place: helm, positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 45° }, START: { at: 85°, springs-to: ON } }, contacts: { B-A: [30..100°], B-S: [74..100°], M1-M2: [-15..20°] } }',
        'S11: { kind: neutral-switch, name: Neutral switch }',
        'J1: { kind: splice, name: Positive bar }',
        'J2: { kind: splice, name: Accessories at the helm }',
        'XE1: { kind: ground-point, on: engine, contact: 0.2 mΩ, name: Negative bar }',
      ],
      wires: [
        'from: G1.+, to: S20.1, area: 35 mm², length: 0.3 m, colour: RD',
        'from: S20.2, to: J1, area: 35 mm², length: 2 m, colour: RD',
        'from: G1.-, to: XE1, area: 35 mm², length: 2 m, colour: BK',
        'from: J1, to: K3.30, area: 25 mm², length: 0.3 m, colour: RD',
        'from: K3.87, to: M1.1, area: 25 mm², length: 0.3 m, colour: YE/RD',
        'from: M1.2, to: block',
        'from: J1, to: F20.1, area: 4 mm², length: 0.2 m, colour: RD',
        'from: F20.2, to: S1.B, area: 4 mm², length: 5 m, colour: RD/VT',
        'from: S1.A, to: J2, area: 2.5 mm², length: 0.3 m, colour: VT',
        'from: S1.S, to: S11.1, area: 2.5 mm², length: 0.8 m, colour: YE/RD',
        'from: S11.2, to: K3.86, area: 2.5 mm², length: 5 m, colour: YE/RD',
        'from: K3.85, to: XE1, area: 1.5 mm², length: 0.3 m, colour: BK',
        'from: S1.M2, to: XE1, area: 1.5 mm², length: 5 m, colour: BK',
      ],
    },
    groups: [
      {
        name: 'Magneto, stopped by the key',
        parts: ['A2: { kind: magneto, name: Magneto, place: engine }'],
        wires: ['from: A2.kill, to: S1.M1, area: 1 mm², length: 5 m, colour: BK/YE', 'from: A2.31, to: block'],
      },
      {
        name: 'Charge coil with regulator',
        parts: [
          'G2: { kind: alternator, voltage: 14 V, rated: 12 A, excitation: magnet, leaks: 0.1 mA, name: Charge coil with regulator }',
        ],
        wires: ['from: G2.B+, to: J1, area: 4 mm², length: 0.4 m, colour: RD', 'from: G2.31, to: block'],
      },
      {
        name: 'Navigation lamps',
        parts: [
          'F1: { kind: fuse, rating: 5 A, name: Fuse of the navigation lamps }',
          'S2: { kind: switch, name: Lamp switch, place: helm }',
          'E1: { kind: lamp, power: 10 W, name: Bow lamp }',
          'E3: { kind: lamp, power: 10 W, name: Stern lamp }',
        ],
        wires: [
          'from: J2, to: F1.1, area: 1.5 mm², length: 0.3 m, colour: VT',
          'from: F1.2, to: S2.1, area: 1.5 mm², length: 0.3 m, colour: GY',
          ...['E1', 'E3'].flatMap((id) => [
            `from: S2.2, to: ${id}.1, area: 1.5 mm², length: 4 m, colour: GY`,
            `from: ${id}.2, to: XE1, area: 1.5 mm², length: 4 m, colour: BK`,
          ]),
        ],
      },
      {
        name: 'Bilge pump, before the battery switch',
        parts: [
          'F3: { kind: fuse, rating: 5 A, name: Fuse of the bilge pump }',
          'S3: { kind: switch, name: Float switch }',
          'M3: { kind: pump, draws: 3 A, name: Bilge pump }',
        ],
        wires: [
          'from: G1.+, to: F3.1, area: 1.5 mm², length: 0.2 m, colour: BN',
          'from: F3.2, to: S3.1, area: 1.5 mm², length: 1.5 m, colour: BN',
          'from: S3.2, to: M3.1, area: 1.5 mm², length: 0.5 m, colour: BN/RD',
          'from: M3.2, to: XE1, area: 1.5 mm², length: 0.8 m, colour: BK',
        ],
      },
      horn(12, 'J2'),
    ],
    engine: 'crank: M1, spark: [A2], fuel: [], drives: [G2]',
  },
  {
    name: 'truck-24',
    title: 'Commercial vehicle with diesel engine, 24 V',
    base: carBase(24, 'capacity: 140 Ah, cold-cranking: 760 A', 'cranking: 0.06 Ω, pull-in: 0.9 Ω, hold-in: 2.3 Ω', 50),
    groups: [
      {
        name: 'Fuel cut-off',
        parts: [
          'F10: { kind: fuse, rating: 5 A, name: Fuse of the fuel cut-off }',
          'Y1: { kind: solenoid, resistance: 32 Ω, at: 24 V, name: Fuel cut-off, place: injection pump }',
        ],
        wires: [
          'from: J2, to: F10.1, area: 1.5 mm², length: 0.3 m, colour: BK',
          'from: F10.2, to: Y1.1, area: 1 mm², length: 2.5 m, colour: BK',
          'from: Y1.2, to: block',
        ],
      },
      charging(24, 80),
      ...body(24),
    ],
    engine: 'crank: M1, spark: [], fuel: [Y1], drives: [G2]',
  },
];

/** The skeletons, in the order in which they are offered. */
export const skeletons: readonly Skeleton[] = drafts.map(skeletonOf);

function skeletonOf({ name, title, base, groups, engine }: Draft): Skeleton {
  let number = 0;
  const all = [base, ...groups];
  const parts = all.flatMap((g) => [`  # ${g.name}`, ...g.parts.map((p) => `  ${p}`)]);
  const wires = all.flatMap((g) => [`  # ${g.name}`, ...g.wires.map((w) => `  - { id: W${++number}, ${w} }`)]);
  const text = [`title: ${title}`, 'parts:', ...parts, 'wires:', ...wires, `engine: { ${engine} }`, ''].join('\n');
  return { name, title, text, groups: groups.map((g) => ({ name: g.name, parts: g.parts.map((p) => p.slice(0, p.indexOf(':'))) })) };
}
