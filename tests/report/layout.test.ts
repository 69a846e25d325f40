import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { keySwitchOf } from '../../src/circuit/keySwitchOf.ts';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { along } from '../../src/report/drawn.ts';
import type { Layout, PlacedWire, Point } from '../../src/report/layout/layout.ts';
import { layoutOf } from '../../src/report/layout/layoutOf.ts';
import { momentOf } from '../../src/report/moment.ts';
import { symbols } from '../../src/report/symbols/index.ts';
import { network } from '../../src/solve/network.ts';
import { broken } from './layoutRules.ts';
import { circuitOf, madeCircuit } from './madeCircuit.ts';

const library = readdirSync('circuits')
  .filter((f) => f.endsWith('.yaml'))
  .map((file) => ({ name: file, text: readFileSync(`circuits/${file}`, 'utf8') }));
const made = [
  [1, 12],
  [2, 20],
  [3, 40],
  [4, 60],
  [5, 90],
  [6, 120],
  [7, 150],
  [8, 30],
] as const;
const circuits = [
  ...library.map(({ name, text }) => ({ name, circuit: circuitOf(text) })),
  ...made.map(([seed, size]) => ({ name: `made-up ${seed}, ${size} parts`, circuit: madeCircuit(seed, size).circuit })),
];

describe.each(circuits)('$name', ({ circuit }) => {
  const layout = layoutOf(circuit);

  test('no label meets another, a symbol or a wire; no wire slants, runs through a symbol or lies on another', () => {
    expect(broken(layout)).toEqual([]);
  });

  test('the same circuit gives the same drawing', () => {
    expect(layoutOf(circuit)).toEqual(layout);
  });

  test('every wire that joins two drawn pieces is shown', () => {
    const shown = new Set(layout.wires.flatMap((w) => w.wires));
    const drawn = new Set(layout.poles.flatMap((p) => [p.top, p.bottom]));
    const missing = [...circuit.parts.values()]
      .filter((p) => p.kind.isWire)
      .filter((p) => {
        const ends = circuit.attached.filter(([end]) => end.startsWith(`${p.id}.`)).map(([, to]) => to);
        return ends.every((t) => drawn.has(t)) && !shown.has(p.id);
      });
    expect(missing.map((p) => p.id)).toEqual([]);
  });

  test('no more crossings than in file order', () => {
    expect(layout.crossings.length).toBeLessThanOrEqual(layoutOf(circuit, { inFileOrder: true }).crossings.length);
  });

  test('what flows into a joint flows out of it, and a stretch of one wire carries what that wire carries', () => {
    const key = keySwitchOf(circuit);
    const net = network(circuit);
    for (const position of key?.model.positions ?? [undefined]) {
      const rest = restScene(circuit);
      const scene = position ? { ...rest, key: { angle: position.angle, came: 'up' as const, in: true } } : rest;
      const { is } = momentOf(net, net, scene);
      const most = Math.max(...[...is.amperes.values()].map(Math.abs), 1e-3);
      expect(unbalanced(layout, (w) => along(w, is)).filter((u) => Math.abs(u.sum) > 1e-6 * most)).toEqual([]);
      for (const w of layout.wires) {
        if (w.wires.length !== 1 || w.carries.length !== 1) continue;
        expect(Math.abs(Math.abs(along(w, is)) - Math.abs(is.amperes.get(w.wires[0]!)!))).toBeLessThanOrEqual(1e-6 * most);
        const [from, to] = [is.volts.get(w.from), is.volts.get(w.to)];
        // Ohm: current runs from more to fewer volts. Rounding of a long chain of milliohms leaves nanovolts.
        if (typeof from === 'number' && typeof to === 'number') expect((from - to) * Math.sign(along(w, is))).toBeGreaterThan(-1e-6);
      }
    }
  });
});

/** Sums of the currents into every joint where three or more stretches of a net meet. */
function unbalanced(layout: Layout, amperes: (w: PlacedWire) => number): readonly { at: string; sum: number }[] {
  const sums = new Map<string, number>();
  const add = ([x, y]: Point, net: number, flow: number) => sums.set(`${net} ${x} ${y}`, (sums.get(`${net} ${x} ${y}`) ?? 0) + flow);
  for (const w of layout.wires) {
    add(w.points[0]!, w.net, -amperes(w));
    add(w.points.at(-1)!, w.net, amperes(w));
  }
  const dots = new Set(layout.dots.map(([x, y]) => `${x} ${y}`));
  return [...sums].filter(([at]) => dots.has(at.slice(at.indexOf(' ') + 1))).map(([at, sum]) => ({ at, sum }));
}

test.each(library)('$name: one lamp more leaves the others in their order', ({ text, name }) => {
  const before = layoutOf(circuitOf(text));
  const fuse = before.poles.find((p) => /^F\d+$/.test(p.id))?.id;
  const ground = before.bars[0]!.part ?? 'ground';
  const more = text
    .replace(/^parts:\n/m, 'parts:\n  E999: { kind: lamp, power: 5 W }\n')
    .replace(
      /^wires:\n/m,
      `wires:\n  - { from: ${fuse}.2, to: E999.1, area: 1 mm², length: 1 m }\n  - { from: E999.2, to: ${ground}, area: 1 mm², length: 1 m }\n`,
    );
  const after = layoutOf(circuitOf(more));
  expect(after.poles.some((p) => p.part === 'E999')).toBe(true);
  expect(sameOrder(before, after), name).toBeGreaterThan(0.9);
});

/** Share of all pairs of pieces that keep their order from left to right. */
function sameOrder(before: Layout, after: Layout): number {
  const place = new Map(after.poles.map((p) => [p.id, p.x]));
  let kept = 0;
  let all = 0;
  for (const [k, p] of before.poles.entries())
    for (const q of before.poles.slice(k + 1)) {
      if (p.x === q.x) continue;
      all++;
      if (Math.sign(p.x - q.x) === Math.sign(place.get(p.id)! - place.get(q.id)!)) kept++;
    }
  return kept / all;
}

test('a part of a drawing shows what was asked for and nothing else', () => {
  const circuit = circuitOf(library.find((l) => l.name === 'light-van.yaml')!.text);
  const only = ['G1', 'S1', 'F3', 'P1', 'B1', 'XE4', 'XE5'];
  const layout = layoutOf(circuit, { only });
  expect(new Set(layout.poles.map((p) => p.part))).toEqual(new Set(['G1', 'S1', 'F3', 'P1', 'B1']));
  expect(broken(layout)).toEqual([]);
});

test('every symbol that a kind of part names is drawn', () => {
  const written = readdirSync('src/parts', { recursive: true, encoding: 'utf8' })
    .filter((f) => f.endsWith('.ts'))
    .flatMap((f) => [...readFileSync(`src/parts/${f}`, 'utf8').matchAll(/symbol: (?:[\w.]+ \?\? )?'([^']+)'/g)].map((m) => m[1]!));
  const given = circuits.flatMap(({ circuit }) => [...circuit.parts.values()].flatMap((p) => p.kind.poles(p).map((pole) => pole.symbol)));
  expect(new Set(written).size).toBeGreaterThan(30);
  expect([...new Set([...written, ...given])].filter((name) => symbols[name] === undefined)).toEqual([]);
});

test('a piece between two ground points hangs under them', () => {
  const circuit = circuitOf(`title: Isolator between two ground points
parts:
  G1: { kind: battery, capacity: 60 Ah }
  S0: { kind: isolator }
  E1: { kind: lamp, power: 5 W }
  XE1: { kind: ground-point }
  XE2: { kind: ground-point, on: engine }
wires:
  - { from: G1.-, to: XE1, area: 16 mm², length: 1 m }
  - { from: XE1, to: S0.1, area: 16 mm², length: 1 m }
  - { from: S0.2, to: XE2, area: 16 mm², length: 1 m }
  - { from: G1.+, to: E1.1, area: 1 mm², length: 1 m }
  - { from: E1.2, to: XE2, area: 1 mm², length: 1 m }
`);
  const layout = layoutOf(circuit);
  expect(broken(layout)).toEqual([]);
  const isolator = layout.poles.find((p) => p.id === 'S0')!;
  for (const bar of layout.bars) expect(isolator.y).toBeGreaterThan(bar.y);
});

describe.each(library)('$name with parts taken out', ({ text }) => {
  const whole = circuitOf(text);
  const ids = [...whole.parts.keys()];
  test.each([2, 3, 5, 7])('every part but each %i-th is drawn by the same rules, and those alone', (step) => {
    const parts = new Map([...whole.parts].filter((_, k) => k % step !== 1));
    const isThere = (terminal: string) => !terminal.includes('.') || parts.has(terminal.slice(0, terminal.lastIndexOf('.')));
    const left = { ...whole, parts, attached: whole.attached.filter((ends) => ends.every(isThere)) };
    expect(broken(layoutOf(left))).toEqual([]);
    expect(broken(layoutOf(whole, { only: ids.filter((_, k) => k % step === 1) }))).toEqual([]);
  });
});

test('a circuit without supply, without key and without ground is drawn all the same', () => {
  const layout = layoutOf(
    circuitOf(
      'title: Two lamps\nparts:\n  G1: { kind: supply, voltage: 12 V }\n  E1: { kind: lamp, power: 5 W }\nwires:\n  - { from: G1.+, to: E1.1 }\n  - { from: E1.2, to: G1.- }\n',
    ),
  );
  expect(layout.poles.map((p) => p.id)).toEqual(['G1', 'E1']);
  expect(layout.bars.map((b) => b.id)).toEqual(['G1.-']);
  expect(broken(layout)).toEqual([]);
});
