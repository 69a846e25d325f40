import { describe, expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import type { Scene } from '../../src/circuit/scene.ts';
import { partKinds } from '../../src/parts/index.ts';
import { engineNext, engineSeen, keepsRunning, solveScene } from '../../src/solve/engine.ts';
import type { LoadSeen } from '../../src/solve/loads.ts';
import { network, type PartChange } from '../../src/solve/network.ts';
import { sound } from '../circuit/phraseCircuit.ts';

/** An engine of plain resistances: what cranks hangs on 50, spark on 15 through R1, fuel on 15, what stops it on 75 through a switch. */
const bench = (engine: string, more: { parts?: string; wires?: string } = {}): Circuit =>
  sound(
    readCircuit(
      `title: Engine of lamps
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  S1:
    kind: key-switch
    positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }
    contacts: { 30-75: [22°..70°], 30-15: [48°..95°], 30-50: [80°..95°] }
  Y1: { kind: heater, resistance: 2 Ω }
  Y2: { kind: heater, resistance: 10 Ω }
  Y3: { kind: heater, resistance: 20 Ω }
  Y4: { kind: heater, resistance: 50 Ω }
  S2: { kind: switch }
  R1: { kind: resistor, resistance: 1 Ω }
${more.parts ?? ''}wires:
  - { from: G1.+, to: S1.30 }
  - { from: G1.-, to: ground }
  - { from: S1.50, to: Y1.1 }
  - { from: Y1.2, to: ground }
  - { from: S1.15, to: R1.1 }
  - { from: R1.2, to: Y2.1 }
  - { from: Y2.2, to: ground }
  - { from: S1.15, to: Y3.1 }
  - { from: Y3.2, to: ground }
  - { from: S1.75, to: S2.1 }
  - { from: S2.2, to: Y4.1 }
  - { from: Y4.2, to: ground }
${more.wires ?? ''}${engine}`,
      'engine.yaml',
      partKinds,
    ),
  );
const petrol = bench('engine: { crank: Y1, spark: [Y2], fuel: [Y3], stops: [Y4] }\n');
const scene = (angle: number, engine: Scene['engine'] = 'stopped', hand: Scene['hand'] = {}): Scene => ({
  key: { angle, came: 'up', in: true },
  hand,
  engine,
  apart: [],
  bridged: [],
  swapped: [],
});
const open = (part: string, element: string): PartChange => ({
  part,
  change: { do: 'series', element, ohm: Number.POSITIVE_INFINITY },
});
const noRun = [open('S1', '30-15')];

describe('what the engine can do', () => {
  test('in START the starter turns it, and its own volts and amperes are told', () => {
    const seen = engineSeen(network(petrol), scene(90))!;
    expect([seen.cranks, seen.slowly, seen.alive]).toEqual([true, false, true]);
    // 2 Ω beside 11 Ω and 20 Ω behind about 0.01 Ω and the contacts.
    expect(seen.volts).toBeGreaterThan(11.7);
    expect(seen.volts).toBeLessThan(12);
    expect(seen.amperes).toBeCloseTo(seen.volts / 2, 6);
  });
  test('in ON it does not crank; a turning engine would live, told by the weaker of spark and fuel', () => {
    const seen = engineSeen(network(petrol), scene(60))!;
    expect([seen.cranks, seen.slowly, seen.alive]).toEqual([false, false, true]);
    // 10 Ω behind 1 Ω have 10/11 of the feed; the fuel's 20 Ω have all of it.
    expect(seen.volts).toBeCloseTo((12 * 10) / 11, 0);
    expect(seen.amperes).toBeCloseTo(seen.volts / 10, 6);
  });
  test('the weaker is told in whichever order the file names them', () => {
    const turned = bench('engine: { crank: Y1, spark: [Y3], fuel: [Y2] }\n');
    expect(engineSeen(network(turned), scene(60))!.volts).toBeCloseTo((12 * 10) / 11, 0);
  });
  test('in ACC nothing keeps it alive, and nothing is there', () => {
    const seen = engineSeen(network(petrol), scene(30))!;
    expect([seen.cranks, seen.alive]).toEqual([false, false]);
    expect(seen.volts).toBeCloseTo(0, 9);
  });
  test('a contact that is burnt turns it slowly', () => {
    const burnt: PartChange = { part: 'S1', change: { do: 'series', element: '30-50', ohm: 1 } };
    const seen = engineSeen(network(petrol, [burnt]), scene(90))!;
    expect([seen.cranks, seen.slowly]).toEqual([true, true]);
  });
  test('with contact 50 open it does not crank, though spark and fuel are there', () => {
    const seen = engineSeen(network(petrol, [open('S1', '30-50')]), scene(90))!;
    expect([seen.cranks, seen.alive]).toEqual([false, true]);
  });
  test('a circuit without an engine tells nothing of one', () => {
    const none = bench('');
    expect(engineSeen(network(none), scene(90))).toBeUndefined();
    expect(engineNext(network(none), scene(90))).toBe('stopped');
  });
});

test.each([
  [90, 'stopped', [], 'running'],
  [90, 'stopped', noRun, 'cranking'],
  [60, 'stopped', [], 'stopped'],
  [60, 'running', [], 'running'],
  [60, 'cranking', [], 'running'],
  [60, 'running', noRun, 'stopped'],
  [60, 'cranking', noRun, 'stopped'],
  [30, 'running', [], 'stopped'],
  [0, 'running', [], 'stopped'],
] as const)('at %d° a %s engine with %j is %s next', (angle, engine, changes, next) => {
  expect(engineNext(network(petrol, changes), scene(angle, engine))).toBe(next);
});

test('what stops it does, once it is switched on', () => {
  expect(engineNext(network(petrol), scene(60, 'running', { S2: 'on' }))).toBe('stopped');
});

test('one of several for spark or fuel that is dead, or unheard of, ends it; what stops it must be dead', () => {
  const load = (id: string, verdict: LoadSeen['verdict']): LoadSeen => ({ id, verdict, volts: 0, amperes: 0 });
  const spec = { crank: 'M', spark: ['A', 'B'], fuel: ['C'], stops: ['D'], drives: [] };
  const all = (b: LoadSeen['verdict'], c: LoadSeen['verdict'], d: LoadSeen['verdict']) =>
    keepsRunning(spec, [load('A', 'works'), load('B', b), load('C', c), load('D', d)]);
  expect(all('works', 'works', 'dead')).toBe(true);
  expect(all('weak', 'weak', 'dead')).toBe(true);
  expect(all('dead', 'works', 'dead')).toBe(false);
  expect(all('works', 'dead', 'dead')).toBe(false);
  expect(all('works', 'works', 'weak')).toBe(false);
  expect(keepsRunning(spec, [load('A', 'works'), load('B', 'works'), load('D', 'dead')])).toBe(false);
  expect(keepsRunning({ ...spec, spark: [], fuel: [], stops: [] }, [])).toBe(true);
  const { stops: _, ...plain } = spec;
  expect(keepsRunning(plain, [load('A', 'works'), load('B', 'works'), load('C', 'works')])).toBe(true);
});

test('an engine for which no spark and no fuel is named runs on in every position, told by nothing', () => {
  const knob = network(bench('engine: { crank: Y1 }\n'));
  expect(engineSeen(knob, scene(0))).toEqual({ cranks: false, slowly: false, alive: true, volts: 0, amperes: 0 });
});

test('without a key switch the engine is what its loads say: cranked by a button, kept alive by a switch', () => {
  const keyless = network(
    sound(
      readCircuit(
        `title: No key
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  S1: { kind: switch }
  S2: { kind: switch }
  Y1: { kind: heater, resistance: 2 Ω }
  Y2: { kind: heater, resistance: 10 Ω }
wires:
  - { from: G1.+, to: S1.1 }
  - { from: G1.+, to: S2.1 }
  - { from: S1.2, to: Y1.1 }
  - { from: S2.2, to: Y2.1 }
  - { from: Y1.2, to: ground }
  - { from: Y2.2, to: ground }
  - { from: G1.-, to: ground }
engine: { crank: Y1, spark: [Y2] }
`,
        'no-key.yaml',
        partKinds,
      ),
    ),
  );
  const at = (hand: Scene['hand']) => {
    const { cranks, alive } = engineSeen(keyless, { hand, engine: 'stopped', apart: [], bridged: [], swapped: [] })!;
    return [cranks, alive];
  };
  expect([at({}), at({ S1: 'on' }), at({ S2: 'on' }), at({ S1: 'on', S2: 'on' })]).toEqual([
    [false, false],
    [true, false],
    [false, true],
    [true, true],
  ]);
});

describe('what a turning engine would find is asked with the states of one that runs', () => {
  // Relays on 75 and 15, so that the states of no two detents are the same.
  const relayed = bench('engine: { crank: Y1, spark: [Y2], fuel: [Y3], stops: [Y4] }\n', {
    parts: '  K1: { kind: relay }\n  K2: { kind: relay }\n',
    wires:
      '  - { from: S1.75, to: K1.86 }\n  - { from: K1.85, to: ground }\n  - { from: S1.15, to: K2.86 }\n  - { from: K2.85, to: ground }\n',
  });
  type Asked = { readonly angle: number | undefined; readonly engine: Scene['engine']; readonly states: unknown };
  const askedOf = (angle: number, changes: readonly PartChange[] = []) => {
    const asked: Asked[] = [];
    const answers = new Map<number | undefined, unknown>();
    const seen = engineSeen(network(relayed, changes), scene(angle), (net, at, states) => {
      asked.push({ angle: at.key?.angle, engine: at.engine, states });
      const solved = solveScene(net, at, states);
      if (at.engine === 'running' && states === undefined) answers.set(at.key?.angle, solved.at.states);
      return solved;
    })!;
    const { alive } = seen;
    return { asked, answers, alive };
  };

  test('those at the detent where most is fed and the starter is out', () => {
    const { asked, answers, alive } = askedOf(0);
    expect(alive).toBe(false);
    expect(asked.map((a) => [a.angle, a.engine])).toEqual([
      [0, 'stopped'],
      [0, 'running'],
      [30, 'running'],
      [60, 'running'],
      [90, 'running'],
      [0, 'running'],
    ]);
    expect(asked.at(-1)!.states).toBe(answers.get(60));
    expect([0, 30, 90].filter((a) => answers.get(a) === answers.get(60))).toEqual([]);
  });

  test('the later one of equals: nothing fed at any, or the same at several', () => {
    const { asked, answers } = askedOf(0, noRun);
    // Nothing for spark and fuel anywhere; in START the starter turns.
    expect(asked.at(-1)!.states).toBe(answers.get(60));
    // With 15 joined to 75 spark and fuel are there from ACC on: ON comes later.
    const joined = askedOf(0, [{ part: 'S1', change: { do: 'bridge', from: 'S1.15', to: 'S1.75', ohm: 0.001 } }]);
    expect(joined.asked.at(-1)!.states).toBe(joined.answers.get(60));
    // By that bridge alone: in ACC and ON alike, in START not.
    const early = askedOf(0, [
      { part: 'S1', change: { do: 'series', element: '30-15', ohm: Number.POSITIVE_INFINITY } },
      { part: 'S1', change: { do: 'bridge', from: 'S1.15', to: 'S1.75', ohm: 0.001 } },
    ]);
    expect(early.asked.at(-1)!.states).toBe(early.answers.get(60));
  });

  test('a starter that never stops leaves nothing to ask of a running engine', () => {
    const stuck = askedOf(0, [{ part: 'S1', change: { do: 'fix', element: '30-50', ohm: 0.01 } }]);
    expect(stuck.asked.map((a) => a.engine)).toEqual(['stopped', 'cranking']);
  });

  test('one that turns at every detent but the first leaves those of the first', () => {
    const circuit = bench('engine: { crank: Y1, spark: [Y2], fuel: [Y3] }\n', {
      parts: '  K1: { kind: relay }\n',
      wires: '  - { from: S1.75, to: K1.86 }\n  - { from: K1.85, to: ground }\n',
    });
    // 50 hangs on 75 and on 15: the starter turns from ACC on.
    const changes: readonly PartChange[] = [
      { part: 'S1', change: { do: 'bridge', from: 'S1.50', to: 'S1.75', ohm: 0.001 } },
      { part: 'S1', change: { do: 'bridge', from: 'S1.50', to: 'S1.15', ohm: 0.001 } },
    ];
    const seenStates: unknown[] = [];
    const answers = new Map<number, unknown>();
    const seen = engineSeen(network(circuit, changes), scene(0), (net, at, states) => {
      const solved = solveScene(net, at, states);
      if (at.engine === 'running' && states === undefined) answers.set(at.key!.angle, solved.at.states);
      if (states !== undefined) seenStates.push(states);
      return solved;
    })!;
    expect(seen.alive).toBe(false);
    expect(seenStates).toEqual([answers.get(0)]);
    expect(seenStates[0]).toBe(answers.get(0));
    expect(answers.get(30)).not.toBe(answers.get(0));
  });

  test('while the starter turns it, those of nobody', () => {
    const { asked } = askedOf(90);
    expect(asked.map((a) => [a.angle, a.engine, a.states])).toEqual([
      [90, 'stopped', undefined],
      [90, 'cranking', undefined],
    ]);
  });
});
