import { expect, test } from 'vitest';
import { keyStretches } from '../../src/circuit/keyStretches.ts';
import { keySwitchOf } from '../../src/circuit/keySwitchOf.ts';
import { readScene, restScene } from '../../src/circuit/scenePhrase.ts';
import { loadAt, loadsAt, loadsOf } from '../../src/solve/loads.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { comesOtherWay, scenesAsked } from '../../src/solve/otherWay.ts';
import { overloads } from '../../src/solve/overloads.ts';
import { allWays, currentPaths, voltsAlong } from '../../src/solve/paths.ts';
import { supplySides } from '../../src/solve/supplySides.ts';
import { sound } from '../circuit/phraseCircuit.ts';
import { circuitOf } from '../report/madeCircuit.ts';

const made = (parts: string, wires: string) => circuitOf(`title: Made\nparts:\n${parts}\nwires:\n${wires}\n`);
const pointOf = (circuit: ReturnType<typeof circuitOf>, words?: string) => {
  const scene = words === undefined ? restScene(circuit) : sound(readScene(words, circuit, '--scene'));
  return operatingPoint(network(circuit, [], scene), scene);
};
const real = 'area: 1 mm², length: 1 m';

/** A lamp behind a fuse and a switch; one wire is written from the lamp to the switch. */
const lamp = (fuse = '5 A', more = '') =>
  made(
    `  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  F1: { kind: fuse, rating: ${fuse} }
  S1: { kind: switch }
  H1: { kind: lamp, power: 21 W }
  H2: { kind: lamp, power: 5 W }
  XE1: { kind: ground-point, on: body }${more}`,
    `  - { id: W1, from: G1.+, to: F1.1, ${real} }
  - { id: W2, from: F1.2, to: S1.1, ${real} }
  - { id: W3, from: H1.1, to: S1.2, ${real} }
  - { id: W4, from: H1.2, to: XE1, ${real} }
  - { id: W5, from: G1.-, to: ground }
  - { id: W6, from: G1.+, to: H2.1, ${real} }
  - { id: W7, from: H2.2, to: ground }`,
  );
const part = (circuit: ReturnType<typeof circuitOf>, id: string) => circuit.parts.get(id)!;
const shown = (elements: readonly { readonly id: string; readonly forwards: boolean }[]) =>
  elements.map((e) => `${e.forwards ? '+' : '-'}${e.id}`);

test('the way of a current: feed in the order in which it flows, a wire that is written against it backwards, then the return', () => {
  const circuit = lamp();
  const at = pointOf(circuit, 'S1 on');
  const { feed, return: back } = currentPaths(at, part(circuit, 'H1'));
  expect(feed.terminals).toEqual(['G1.+', 'F1.1', 'F1.2', 'S1.1', 'S1.2', 'H1.1']);
  expect(shown(feed.elements)).toEqual(['+W1', '+F1', '+W2', '+S1', '-W3']);
  expect(back.terminals[0]).toBe('H1.2');
  expect(back.terminals.at(-1)).toBe('G1.-');
  expect(shown(back.elements)[0]).toBe('+W4');
  // Along the feed volts only fall, and in the end as many are left as the lamp has.
  const volts = voltsAlong(at, feed).map((v) => v!);
  expect([...volts].sort((a, b) => b - a)).toEqual(volts);
  expect(volts.at(-1)!).toBeGreaterThan(11);
  expect(volts[0]!).toBeLessThan(12);
});

test('a load without current has no way, nor has a part that is no load', () => {
  const circuit = lamp();
  const nothing = { feed: { terminals: [], elements: [] }, return: { terminals: [], elements: [] } };
  expect(currentPaths(pointOf(circuit), part(circuit, 'H1'))).toEqual(nothing);
  expect(currentPaths(pointOf(circuit, 'S1 on'), part(circuit, 'F1'))).toEqual(nothing);
});

test('of two ways side by side the one that carries more is told', () => {
  const circuit = made(
    `  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  R1: { kind: resistor, resistance: 9 Ω }
  R2: { kind: resistor, resistance: 3 Ω }
  H1: { kind: lamp, power: 21 W }`,
    `  - { id: W1, from: G1.+, to: R1.1, ${real} }
  - { id: W2, from: G1.+, to: R2.1, ${real} }
  - { id: W3, from: R1.2, to: H1.1, ${real} }
  - { id: W4, from: R2.2, to: H1.1, ${real} }
  - { id: W5, from: H1.2, to: G1.-, ${real} }
  - { id: W6, from: G1.-, to: ground }`,
  );
  const { feed } = currentPaths(pointOf(circuit), part(circuit, 'H1'));
  expect(shown(feed.elements)).toEqual(['+W2', '+R2', '+W4']);
});

test('a load that is fed from its second end is told from there', () => {
  const circuit = made(
    `  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  H1: { kind: lamp, power: 21 W }`,
    `  - { id: W1, from: G1.+, to: H1.2, ${real} }
  - { id: W2, from: H1.1, to: G1.-, ${real} }
  - { id: W3, from: G1.-, to: ground }`,
  );
  const { feed, return: back } = currentPaths(pointOf(circuit), part(circuit, 'H1'));
  expect(feed.terminals).toEqual(['G1.+', 'H1.2']);
  expect(back.terminals).toEqual(['H1.1', 'G1.-']);
});

test('an overload tells both numbers: 21 W at 12 V is 1.75 A, over 80 % of a fuse of 2 A, under that of 3 A', () => {
  const seen = overloads(pointOf(lamp('2 A'), 'S1 on'));
  expect(seen.map((o) => [o.code, o.part, o.element])).toEqual([['over-rating', 'F1', 'F1']]);
  // A lamp on a little less than its volts draws a little less.
  expect(seen[0]!.value).toBeGreaterThan(1.6);
  expect(seen[0]!.value).toBeLessThan(1.75);
  expect(seen[0]!.limit).toBeCloseTo(1.6, 9);
  expect(seen[0]!.what).toContain('2 A');
  expect(overloads(pointOf(lamp('2 A')))).toEqual([]);
  expect(overloads(pointOf(lamp('3 A'), 'S1 on'))).toEqual([]);
});

test('loads in the order of the file, by their own limits; one that is unplugged is dead', () => {
  const circuit = lamp();
  expect(loadsOf(circuit.parts.values()).map((p) => p.id)).toEqual(['H1', 'H2']);
  const verdicts = (scene?: string) => loadsAt(pointOf(circuit, scene)).map((l) => `${l.id} ${l.verdict}`);
  expect(verdicts()).toEqual(['H1 dead', 'H2 works']);
  expect(verdicts('S1 on')).toEqual(['H1 works', 'H2 works']);
  expect(verdicts('S1 on, unplugged H2')).toEqual(['H1 works', 'H2 dead']);
  expect(loadAt(pointOf(circuit, 'S1 on, unplugged H2'), 'H2')).toEqual({ id: 'H2', verdict: 'dead', volts: 0, amperes: 0 });
  expect(loadAt(pointOf(circuit), 'H9')).toBeUndefined();
  const on = loadAt(pointOf(circuit, 'S1 on'), 'H1')!;
  expect(on.volts * on.amperes).toBeGreaterThan(18);
  expect(on.volts * on.amperes).toBeLessThan(21);
});

const side = (plus: string, minus: string, more = '', wires = '') =>
  supplySides(
    made(
      `  G1: { kind: battery, capacity: 60 Ah }${more}
  H1: { kind: lamp, power: 5 W }`,
      `  - { from: ${plus}, to: H1.1 }\n  - { from: H1.2, to: ground }\n  - { from: ${minus}, to: ground }${wires}`,
    ),
  );

test('the live side is the one furthest from the body, the grounded one nearest to it, whichever pole that is', () => {
  expect(side('G1.+', 'G1.-')).toEqual({ live: 'G1.+', grounded: 'G1.-' });
  expect(side('G1.-', 'G1.+')).toEqual({ live: 'G1.-', grounded: 'G1.+' });
});

test('of two batteries in series the far end of the second is live', () => {
  const two = side('G2.+', 'G1.-', '\n  G2: { kind: battery, capacity: 60 Ah }', '\n  - { from: G1.+, to: G2.- }');
  expect(two).toEqual({ live: 'G2.+', grounded: 'G1.-' });
});

test('without a battery another supply counts, with one it does not; without any there are no sides', () => {
  const bench = made(
    '  G9: { kind: supply, voltage: 12 V }\n  H1: { kind: lamp, power: 5 W }',
    '  - { from: G9.+, to: H1.1 }\n  - { from: H1.2, to: ground }\n  - { from: G9.-, to: ground }',
  );
  expect(supplySides(bench)).toEqual({ live: 'G9.+', grounded: 'G9.-' });
  expect(supplySides(bench)).toBe(supplySides(bench));
  const both = side(
    'G1.+',
    'G1.-',
    '\n  G9: { kind: supply, voltage: 24 V }\n  H2: { kind: lamp, power: 5 W }',
    '\n  - { from: G9.+, to: H2.1 }\n  - { from: H2.2, to: ground }\n  - { from: G9.-, to: ground }',
  );
  expect(both).toEqual({ live: 'G1.+', grounded: 'G1.-' });
  const none = made(
    '  H1: { kind: lamp, power: 5 W }\n  S1: { kind: switch }',
    '  - { from: S1.1, to: H1.1 }\n  - { from: H1.2, to: ground }',
  );
  expect(supplySides(none)).toBeUndefined();
  expect(supplySides(none)).toBeUndefined();
});

/** A motor that is the starter, behind a fuse; `cranks` names it so. */
const starter = (cranks: boolean) =>
  circuitOf(`title: Made
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  F1: { kind: fuse, rating: 10 A }
  S1: { kind: switch }
  M1: { kind: motor, draws: 9 A }
  H1: { kind: lamp, power: 2 W }
  S2: { kind: switch }
  E1: { kind: heater, resistance: 1.3 Ω }
wires:
  - { id: W1, from: G1.+, to: F1.1 }
  - { id: W2, from: F1.2, to: S1.1 }
  - { id: W3, from: S1.2, to: M1.1 }
  - { id: W4, from: M1.2, to: ground }
  - { id: W5, from: G1.-, to: ground }
  - { id: W6, from: F1.2, to: H1.1 }
  - { id: W7, from: H1.2, to: ground }
  - { id: W8, from: F1.2, to: S2.1 }
  - { id: W9, from: S2.2, to: E1.1 }
  - { id: W10, from: E1.2, to: ground }
${cranks ? 'engine: { crank: M1, spark: [H1], fuel: [H1] }\n' : ''}`);

test('while the starter turns the limits for some seconds count: 9 A are over 80 % of a 10 A fuse, and under its rating', () => {
  const parts = (cranks: boolean, words?: string) => overloads(pointOf(starter(cranks), words)).map((o) => o.part);
  expect(parts(false, 'S1 on')).toEqual(['F1']);
  expect(parts(true, 'S1 on')).toEqual([]);
  expect(parts(true)).toEqual([]);
  // The same current into something else, while the starter stands.
  expect(parts(true, 'S2 on')).toEqual(['F1']);
});

test('an overload names the element of its part: a contact of the key switch', () => {
  const circuit = circuitOf(`title: Made
parts:
  G1: { kind: supply, voltage: 12 V }
  S1:
    kind: key-switch
    positions: { OFF: { at: 0° }, ON: { at: 60° } }
    contacts: { 30-15: [40..80°] }
    ratings: { 30-15: 1 A }
  H1: { kind: lamp, power: 21 W }
wires:
  - { id: W1, from: G1.+, to: S1.30 }
  - { id: W2, from: S1.15, to: H1.1 }
  - { id: W3, from: H1.2, to: ground }
  - { id: W4, from: G1.-, to: ground }
`);
  expect(overloads(pointOf(circuit, 'ON')).map((o) => [o.part, o.element])).toEqual([['S1', 'S1.30-15']]);
});

test('what is fed by a relay that interrupts its own coil is said to chatter, what stands beside it is not', () => {
  const circuit = circuitOf(`title: Made
parts:
  G1: { kind: supply, voltage: 12 V }
  K1: { kind: relay, form: break, coil: 85 Ω }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }
wires:
  - { id: W1, from: G1.+, to: K1.30 }
  - { id: W2, from: K1.87a, to: K1.86 }
  - { id: W3, from: K1.85, to: ground }
  - { id: W4, from: K1.87a, to: H1.1 }
  - { id: W5, from: H1.2, to: ground }
  - { id: W6, from: G1.+, to: H2.1 }
  - { id: W7, from: H2.2, to: ground }
  - { id: W8, from: G1.-, to: ground }
`);
  const at = pointOf(circuit);
  expect(at.chatters).toEqual(['K1']);
  expect(loadsAt(at).map((l) => [l.id, l.verdict])).toEqual([
    ['H1', 'chatters'],
    ['H2', 'works'],
  ]);
  expect(['works', 'dead']).toContain(loadAt(at, 'H1')!.verdict);
});

test('a load is asked for in every position that is reached from below, with what its row sets; without a key as it stands', () => {
  const keyed = circuitOf(`title: Made
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: key-switch, positions: { OFF: { at: 0° }, ON: { at: 40° }, START: { at: 80°, springs-to: ON } }, contacts: { 30-15: [30°..90°] } }
  S2: { kind: switch }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.30 }
  - { from: S1.15, to: S2.1 }
  - { from: S2.2, to: H1.1 }
  - { from: S1.15, to: H2.1 }
  - { from: H1.2, to: ground }
  - { from: H2.2, to: ground }
  - { from: G1.-, to: ground }
`);
  const rest = restScene(keyed);
  const asked = scenesAsked(keyed, { ...rest, hand: { S9: 'on' } }, 'H1');
  const stretches = keyStretches(keySwitchOf(keyed)!.model);
  expect(stretches.length).toBeGreaterThan(2);
  expect(asked.map((s) => s.key)).toEqual(stretches.map((s) => ({ angle: s.keyAngle, came: 'up', in: true })));
  expect(asked.every((s) => s.hand['S2'] === 'on' && s.hand['S9'] === 'on' && s.engine === 'stopped')).toBe(true);
  expect(scenesAsked(keyed, rest, 'H2').every((s) => Object.keys(s.hand).length === 0)).toBe(true);
  const bare = circuitOf(`title: Made
parts:
  G1: { kind: supply, voltage: 12 V }
  H1: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: H1.1 }
  - { from: H1.2, to: ground }
  - { from: G1.-, to: ground }
`);
  expect(scenesAsked(bare, restScene(bare), 'H1')).toEqual([{ ...restScene(bare), hand: {} }]);
});

test('a lamp that is dark has no ways, though a little current goes through it', () => {
  const circuit = circuitOf(`title: Made
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  R1: { kind: resistor, resistance: 400 Ω }
  H1: { kind: lamp, power: 21 W }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: R1.2, to: H1.1 }
  - { from: H1.2, to: ground }
  - { from: G1.-, to: ground }
`);
  const at = pointOf(circuit);
  const lamp = circuit.parts.get('H1')!;
  expect(loadAt(at, 'H1')).toMatchObject({ verdict: 'dead' });
  expect(currentPaths(at, lamp).feed.terminals).toEqual(['G1.+', 'R1.1', 'R1.2', 'H1.1']);
  expect(allWays(at, lamp)).toEqual([]);
  expect(comesOtherWay(at, lamp, new Set())).toBe(false);
});

test('behind an open isolator the batteries still stand above one another', () => {
  const circuit = circuitOf(`title: Made
parts:
  G1: { kind: battery, capacity: 60 Ah }
  G2: { kind: battery, capacity: 60 Ah }
  S1: { kind: switch }
wires:
  - { from: G1.+, to: G2.- }
  - { from: G1.-, to: S1.1 }
  - { from: S1.2, to: ground }
`);
  expect(supplySides(circuit)).toEqual({ live: 'G2.+', grounded: 'G1.-' });
});
