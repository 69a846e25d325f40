import { describe, expect, test } from 'vitest';
import { closedAt, keyStretches } from '../../src/circuit/keyStretches.ts';
import type { FaultMode, Part } from '../../src/circuit/part.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import type { KeyPlace } from '../../src/circuit/scene.ts';
import { worldsOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { continuityTable } from '../../src/parts/keySwitch/continuityTable.ts';
import { keySwitch } from '../../src/parts/keySwitch.ts';
import { positionTable } from '../../src/solve/positionTable.ts';
import { circuitFrom, exampleOf } from './examples.ts';
import { solved } from './solved.ts';

const positions = 'positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }';
const contacts = 'contacts: { 30-75: [22°..74°], 30-15: [48°..95°], 30-50: [80°..95°] }';
const plain = exampleOf(keySwitch, `${positions}, ${contacts}`);

const up = (angle: number): KeyPlace => ({ angle, came: 'up', in: true });
const back = (angle: number): KeyPlace => ({ angle, came: 'back', in: true });
const modelOf = (part: Part) => part.kind.key!(part);
/** Contacts closed where the key stands, with whatever the part's parameters hold. */
const closed = (part: Part, key: KeyPlace) => closedAt(modelOf(part), modelOf(part).switchAngle(key)).join(' ');

function mode(part: Part, subject: string, words: string): FaultMode {
  const found = part.kind.faults(part, { positions: [], feed: undefined }).find((m) => m.subject === subject && m.words === words);
  if (!found) throw new Error(`no ${subject} ${words}`);
  return found;
}

/** The part as a fault that writes into its parameters leaves it. */
function worn(part: Part, subject: string, words: string, detail?: number): Part {
  const found = mode(part, subject, words);
  const patches = found.changes(detail ?? found.detail?.default ?? 0).map((c) => (c.do === 'params' ? c.patch : {}));
  return { ...part, params: Object.assign({}, part.params, ...patches) };
}

describe('sectors', () => {
  test.each([
    [0, ''],
    [30, '30-75'],
    [50, '30-75'],
    [55, '30-75 30-15'],
    [60, '30-75 30-15'],
    [79, '30-15'],
    [90, '30-15 30-50'],
  ] as [number, string][])('key at %f°, turned up: %s', (angle, contacts) => expect(closed(plain, up(angle))).toBe(contacts));

  test('make before break: between ACC and ON both contacts are closed, and a pair that breaks first leaves a stretch without', () => {
    const both = exampleOf(keySwitch, 'positions: { A: { at: 0° }, B: { at: 30° } }, contacts: { 30-1: [-10°..18°], 30-2: [12°..40°] }');
    expect(keyStretches(modelOf(both)).map((s) => s.closed.join(' '))).toEqual(['30-1', '30-1 30-2', '30-2']);
    const none = exampleOf(keySwitch, 'positions: { A: { at: 0° }, B: { at: 30° } }, contacts: { 30-1: [-10°..12°], 30-2: [18°..40°] }');
    expect(keyStretches(modelOf(none)).map((s) => s.closed.join(' '))).toEqual(['30-1', '', '30-2']);
  });

  test('the stretches of the travel, with their angles', () => {
    expect(keyStretches(modelOf(plain)).map((s) => [s.name, s.angle, s.closed.join(' ')])).toEqual([
      ['LOCK', 0, ''],
      ['ACC', 30, '30-75'],
      ['ON', 60, '30-75 30-15'],
      ['between ON and START', 77, '30-15'],
      ['START', 90, '30-15 30-50'],
    ]);
  });

  test('positions left of zero and a contact in two sectors', () => {
    const cycle = exampleOf(
      keySwitch,
      'positions: { P: { at: -40°, key-out: yes }, LOCK: { at: 0° }, ON: { at: 75° } }, contacts: { 30-15: [62..82°], 30-58: [-48..-32°, 62..82°] }',
    );
    expect(continuityTable(modelOf(cycle)).map((r) => [r.position, r.closed.join(' ')])).toEqual([
      ['P', '30-58'],
      ['LOCK', ''],
      ['ON', '30-15 30-58'],
    ]);
  });
});

describe('the short form', () => {
  const short = exampleOf(keySwitch, `${positions}, table: { LOCK: [], ACC: [30-75], ON: [30-75, 30-15], START: [30-15, 30-50] }`);
  test('gives the same contacts at every detent as the sectors', () => {
    for (const p of modelOf(plain).positions) expect(closed(short, back(p.angle))).toBe(closed(plain, back(p.angle)));
  });
  test('changes half-way between two detents and runs through where both have the contact', () => {
    expect(modelOf(short).contacts).toEqual([
      { id: '30-75', sectors: [[15, 75]] },
      { id: '30-15', sectors: [[45, 105]] },
      { id: '30-50', sectors: [[75, 105]] },
    ]);
  });
});

describe('published patterns of key switches', () => {
  // Live terminals in OFF, ACC, ON, START; `S` while the key is in.
  const patterns: readonly (readonly [string, string, readonly string[]])[] = [
    [
      'European, a maker’s switch check (secondary)',
      'positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 45° }, START: { at: 75°, springs-to: ON } }, table: { OFF: [30-P], ON: [30-15, 30-75, 30-X], START: [30-15, 30-50, 30-50b] }',
      ['30 P', '15 30 75 X', '15 30 50 50b'],
    ],
    [
      'two feeds, a maker’s switch check (secondary)',
      'positions: { LOCK: { at: 0° }, ACC: { at: 30° }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }, table: { LOCK: [], ACC: [AM1-ACC], ON: [AM1-ACC, AM1-IG1, AM2-IG2], START: [AM1-IG1, AM1-ST1, AM2-IG2, AM2-ST2] }',
      ['', 'ACC AM1', 'ACC AM1 IG1 + AM2 IG2', 'AM1 IG1 ST1 + AM2 IG2 ST2'],
    ],
    [
      'garden tractor with magneto, a maker’s switch check (secondary)',
      'positions: { OFF: { at: 0° }, ON: { at: 30° }, START: { at: 60°, springs-to: ON } }, table: { OFF: [M-G], ON: [B-I, B-A], START: [B-I, B-S] }',
      ['G M', 'A B I', 'B I S'],
    ],
  ];
  test.each(patterns)('%s', (_source, parameters, joined) => {
    const rows = continuityTable(modelOf(exampleOf(keySwitch, parameters)));
    expect(rows.map((r) => r.joined.map((g) => g.join(' ')).join(' + '))).toEqual(joined);
  });
});

describe('lost motion and springs', () => {
  test('the switch lags the key on the way up by the slack and follows at once on the way back', () => {
    const { switchAngle } = modelOf(plain);
    expect(switchAngle(up(60))).toBe(57);
    expect(switchAngle(back(60))).toBe(60);
    expect(switchAngle(up(0))).toBe(0);
  });
  test('12° of lost motion kill START and ACC first; coming back from START, ON is sound', () => {
    const loose = worn(plain, 'Z9', 'lost motion', 12);
    expect(closed(loose, up(30))).toBe('');
    expect(closed(loose, up(60))).toBe('30-75 30-15');
    expect(closed(loose, up(90))).toBe('30-15');
    expect(closed(loose, back(60))).toBe('30-75 30-15');
  });
  test('let go at START the key springs to ON; a weak spring stops short between the two', () => {
    expect(modelOf(plain).released(up(90))).toEqual(back(60));
    expect(modelOf(plain).released(up(75))).toEqual(back(60));
    expect(modelOf(plain).released(up(60))).toEqual(up(60));
    const weak = worn(plain, 'Z9', 'spring weak', 17);
    expect(modelOf(weak).released(up(90))).toEqual(back(77));
    expect(closed(weak, modelOf(weak).released(up(90)))).toBe('30-15');
    const weaker = worn(plain, 'Z9', 'spring weak', 22);
    expect(closed(weaker, modelOf(weaker).released(up(90))), 'the starter stays in').toBe('30-15 30-50');
  });
  test('a switch that stays behind is still in ACC when the key is back in LOCK', () => {
    expect(closed(worn(plain, 'Z9', 'stays behind', 25), { ...back(0), in: false })).toBe('30-75');
    expect(closed(plain, { ...back(0), in: false })).toBe('');
  });
  test('a worn detent lets the key sag back at that detent only', () => {
    const sagging = worn(plain, 'Z9', 'detent worn at ON', 14);
    expect(closed(sagging, up(60))).toBe('30-75');
    expect(closed(sagging, up(68))).toBe('30-75 30-15');
    expect(closed(sagging, up(90))).toBe('30-15 30-50');
  });
  test('a jammed repeat lock keeps the key from START', () => {
    const locked = exampleOf(keySwitch, `${positions.replace('springs-to: ON', 'springs-to: ON, repeat-lock: yes')}, ${contacts}`);
    expect(modelOf(locked).positions.find((p) => p.name === 'START')?.repeatLock).toBe(true);
    expect(closed(locked, up(90))).toBe('30-15 30-50');
    expect(closed(worn(locked, 'Z9', 'repeat lock jammed'), up(90))).not.toContain('30-50');
  });
});

describe('dead sector', () => {
  const dead = worn(plain, 'Z9.30-15', 'open at ON');
  test('dead exactly at the detent however it is reached, closed again before and behind', () => {
    expect(closed(dead, up(60))).toBe('30-75');
    expect(closed(dead, back(60))).toBe('30-75');
    expect(closed(dead, up(55))).toContain('30-15');
    expect(closed(dead, up(72))).toContain('30-15');
    expect(closed(dead, up(90))).toBe('30-15 30-50');
  });
  test('its stretches name the places where it still closes', () => {
    const live = keyStretches(modelOf(dead)).filter((s) => s.closed.includes('30-15'));
    expect(live.map((s) => s.name)).toEqual(['between ACC and ON', 'between ON and START 1', 'between ON and START 2', 'START']);
  });
  test('two dead sectors at once, and a shifted sector beside them', () => {
    const both = worn(worn(dead, 'Z9.30-75', 'open at ACC'), 'Z9.30-50', 'shifted', 12);
    expect(closed(both, up(30))).toBe('');
    expect(closed(both, up(60))).toBe('30-75');
    expect(closed(both, up(90))).toBe('30-15');
  });
  test('is narrower than a third of the way to the next detent', () => {
    const narrow = exampleOf(keySwitch, 'positions: { A: { at: 0° }, B: { at: 9° } }, contacts: { 30-1: [-10°..20°] }, lost-motion: 0°');
    const at = worn(narrow, 'Z9.30-1', 'open at A');
    expect(closed(at, back(0))).toBe('');
    expect(closed(at, back(9))).toBe('30-1');
  });
});

describe('in a circuit', () => {
  const board = circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: key-switch, ${positions}, ${contacts}, key-in: { pair: S-31 } }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }
  H3: { kind: lamp, power: 5 W }
  H4: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.30 }
  - { from: S1.75, to: H1.1 }
  - { from: S1.15, to: H2.1 }
  - { from: S1.50, to: H3.1 }
  - { from: G1.+, to: H4.1 }
  - { from: H4.2, to: S1.S }
  - { from: S1.31, to: ground }
  - { from: H1.2, to: ground }
  - { from: H2.2, to: ground }
  - { from: H3.2, to: ground }
  - { from: G1.-, to: ground }
`);
  const lamps = (key: KeyPlace, ...faults: string[]) => {
    const at = solved(board, { key, faults });
    return ['H1', 'H2', 'H3'].map((h) => at.verdict(h)).join(' ');
  };
  test.each([
    [0, 'dead dead dead'],
    [30, 'works dead dead'],
    [60, 'works works dead'],
    [90, 'dead works works'],
  ] as [number, string][])('healthy at %f°', (angle, seen) => expect(lamps(up(angle))).toBe(seen));

  test.each([
    ['S1.30-15 open', 60, 'works dead dead'],
    ['S1.30-15 open at ON', 60, 'works dead dead'],
    ['S1.30-15 open at ON', 72, 'works works dead'],
    ['S1.30-15 open at ON', 90, 'dead works works'],
    ['S1.30-75 stuck closed', 0, 'works dead dead'],
    ['S1.30-75 stuck closed', 90, 'works works works'],
    ['S1.15-75 bridged 1 Ω', 30, 'works works dead'],
    ['S1.30-15 20 Ω', 60, 'works weak dead'],
    ['S1 lost motion 12°', 90, 'dead works dead'],
  ] as [string, number, string][])('%s at %f°', (fault, angle, seen) => expect(lamps(up(angle), fault)).toBe(seen));

  test('a weak spring is seen in the column of its own, against a sound spring', () => {
    const read = readFault('S1 spring weak 17°', board);
    if (!read.ok) throw new Error('no such fault');
    const table = positionTable(board, worldsOf([read.value]));
    const column = table.positions.findIndex((p) => p.name === 'ON after START');
    expect(table.rows.map((r) => [r.id, r.cells[column]!.healthy.verdict, r.cells[column]!.verdict, r.cells[column]!.changed])).toEqual([
      ['H1', 'works', 'dead', true],
      ['H2', 'works', 'works', false],
      ['H3', 'dead', 'dead', false],
      ['H4', 'works', 'works', false],
    ]);
  });

  test('the key-in contact is closed while the key is in the lock, open without it', () => {
    expect(solved(board, { key: up(0) }).verdict('H4')).toBe('works');
    expect(solved(board, { key: { ...back(0), in: false } }).verdict('H4')).toBe('dead');
    expect(solved(board, { key: { ...back(0), in: false }, faults: ['S1.S-31 stuck closed'] }).verdict('H4')).toBe('works');
  });

  test('0.5 Ω at 10 A loses 5 V: the contact that an ohmmeter calls good (computed)', () => {
    const heavy = circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: key-switch, ${positions}, ${contacts}, contact: 1 nΩ }
  R1: { kind: resistor, resistance: 0.7 Ω }
wires:
  - { from: G1.+, to: S1.30 }
  - { from: S1.15, to: R1.1 }
  - { from: R1.2, to: ground }
  - { from: G1.-, to: ground }
`);
    const at = solved(heavy, { key: up(60), faults: ['S1.30-15 0.5 Ω'] });
    expect(at.amps('S1.30-15')).toBeCloseTo(10, 6);
    expect(at.volts('S1.30', 'S1.15')).toBeCloseTo(5, 6);
  });
});

describe('what cannot be', () => {
  const problems = (parameters: string) => {
    const read = readCircuit(`title: t\nparts:\n  S1: { kind: key-switch, ${parameters} }\n`, 't.yaml', partKinds);
    return read.problems.filter((p) => p.severity === 'error').map((p) => p.what);
  };
  test.each([
    [positions, 'neither contacts nor a table'],
    [`${positions.replace('springs-to: ON', 'springs-to: RUN')}, ${contacts}`, 'springs to `RUN`'],
    [`${positions}, ${contacts}, ratings: { 30-54: 5 A }`, '`30-54`'],
    [`${positions}, table: { LOCK: [], RUN: [30-15] }`, '`RUN`'],
    [`${positions}, contacts: { 30-15: [95°..48°] }`, 'ends before it begins'],
    [`${positions}, contacts: { 3015: [48°..95°] }`, 'not a pair of terminals'],
    [`${positions.replace('at: 60°', 'at: 30.2°')}, ${contacts}`, 'less than 1° apart'],
  ])('%s', (parameters, said) => {
    expect(problems(parameters).join('\n')).toContain(said);
  });
});
