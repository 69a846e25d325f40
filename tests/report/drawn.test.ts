import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { readScene } from '../../src/circuit/scenePhrase.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { neighbour, ribbonsOf, terminalAt, terminalPoints } from '../../src/report/drawn.ts';
import { hangTags } from '../../src/report/hangTags.ts';
import { layoutOf } from '../../src/report/layout/layoutOf.ts';
import { engineNext, momentOf } from '../../src/report/moment.ts';
import { chevronPlaces, ramp, ribbonWidth, showsChevrons } from '../../src/report/ribbon.ts';
import { network } from '../../src/solve/network.ts';

const names = readdirSync('circuits').filter((f) => f.endsWith('.yaml'));
function circuitOf(name: string) {
  const read = readCircuit(readFileSync(`circuits/${name}`, 'utf8'), name, partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('; '));
  return read.value;
}
function good<T>(read: { readonly ok: true; readonly value: T } | { readonly ok: false }): T {
  if (!read.ok) throw new Error('not read');
  return read.value;
}

test('widths of five currents: 2.5 px at 10 mA, then 1.5 px more for each factor of ten, 2 for none, 9 at most', () => {
  expect([0, 0.01, 0.1, 1, 10, 100, 1e6].map((i) => ribbonWidth(i))).toEqual([2, 2.5, 4, 5.5, 7, 8.5, 9]);
  expect(ribbonWidth(1e-5, 1e-5)).toBe(2.5);
  expect(ribbonWidth(-1)).toBe(5.5);
});

test('chevrons: from 50 mA on, one about every 44 px, centred, none on runs up to 26 px', () => {
  expect(showsChevrons(0.049)).toBe(false);
  expect(showsChevrons(-0.05)).toBe(true);
  expect(chevronPlaces(26)).toEqual([]);
  expect(chevronPlaces(40)).toEqual([20]);
  for (const length of [60, 100, 333, 1000]) {
    const places = chevronPlaces(length);
    expect(places[0]! + places.at(-1)!).toBeCloseTo(length, 9);
  }
});

test('the ramp is clamped and not inverted', () => {
  expect(ramp(-1)).toBe(ramp(0));
  expect(ramp(2)).toBe(ramp(1));
  expect(ramp(0)).not.toBe(ramp(1));
});

test('the van at ON with contact 30-15 open there: the coil path is dark and changed; between ON and START it is lit', () => {
  const circuit = circuitOf('light-van.yaml');
  const fault = good(readFault('S1.30-15 open at ON', circuit));
  const [net, healthy] = [network(circuit, changesOf([fault])), network(circuit)];
  const layout = layoutOf(circuit);
  const shareAt = (words: string) => {
    const scene = good(readScene(words, circuit, 'test'));
    const ribbons = ribbonsOf(layout, momentOf(net, healthy, scene), 'difference');
    const k = layout.wires.findIndex((w) => w.from === 'R1.1' || w.to === 'R1.1');
    return ribbons[k]!;
  };
  expect(shareAt('ON').potential?.[0]).toBeLessThan(0.05);
  expect(shareAt('ON').changed).toBe(true);
  expect(shareAt('66°').potential?.[0]).toBeGreaterThan(0.9);
  expect(shareAt('66°').changed).toBe(false);
});

test('the engine of the van: starts from START, lives on at ON, dies at ON with the fault, catches as the key goes back', () => {
  const circuit = circuitOf('light-van.yaml');
  const scene = (words: string) => good(readScene(words, circuit, 'test'));
  const sound = network(circuit);
  const faulty = network(circuit, changesOf([good(readFault('S1.30-15 open at ON', circuit))]));
  expect(engineNext(sound, scene('ON'))).toBe('stopped');
  expect(engineNext(sound, scene('START'))).toBe('running');
  expect(engineNext(sound, { ...scene('ON after START'), engine: 'running' })).toBe('running');
  expect(engineNext(faulty, { ...scene('ON after START'), engine: 'running' })).toBe('stopped');
  expect(engineNext(sound, { ...scene('LOCK'), engine: 'running' })).toBe('stopped');
});

test.each(names)('%s: every stretch has its ribbon and no current comes from nowhere', (name) => {
  const circuit = circuitOf(name);
  const layout = layoutOf(circuit);
  const net = network(circuit);
  const scene = good(readScene('', circuit, 'test').ok ? readScene('', circuit, 'test') : readScene('at rest', circuit, 'test'));
  const ribbons = ribbonsOf(layout, momentOf(net, net, scene), 'difference');
  expect(ribbons).toHaveLength(layout.wires.length);
  expect(ribbons.some((r) => r.changed)).toBe(false);
  for (const r of ribbons) if (r.potential === undefined) expect(Math.abs(r.amperes)).toBeLessThan(1e-9);
});

test.each(names)('%s: three tags stay on the sheet and hang clear of each other and of their parts', (name) => {
  const circuit = circuitOf(name);
  const layout = layoutOf(circuit);
  const parts = layout.poles.filter((_, k) => k % 7 === 3).slice(0, 3);
  const tags = hangTags(
    layout,
    parts.map((p) => ({ subject: p.id, words: 'open', part: p.part, text: 'does not conduct', phrase: `${p.id} open` })),
  );
  expect(tags).toHaveLength(parts.length);
  for (const [k, t] of tags.entries()) {
    expect(t.box.x).toBeGreaterThanOrEqual(0);
    expect(t.box.y).toBeGreaterThanOrEqual(0);
    expect(t.box.x + t.box.width).toBeLessThanOrEqual(layout.width);
    for (const u of tags.slice(k + 1))
      expect(
        t.box.x + t.box.width <= u.box.x ||
          u.box.x + u.box.width <= t.box.x ||
          t.box.y + t.box.height <= u.box.y ||
          u.box.y + u.box.height <= t.box.y,
      ).toBe(true);
  }
});

test('more than three tags shrink to numbered tabs', () => {
  const layout = layoutOf(circuitOf('light-van.yaml'));
  const tags = hangTags(
    layout,
    layout.poles.slice(0, 4).map((p) => ({ subject: p.id, words: 'open', part: p.part, text: '', phrase: `${p.id} open` })),
  );
  expect(tags.map((t) => t.tab)).toEqual([true, true, true, true]);
  expect(tags.map((t) => t.number)).toEqual([1, 2, 3, 4]);
});

test('arrow keys reach every piece of the van from the first one', () => {
  const layout = layoutOf(circuitOf('light-van.yaml'));
  const reached = new Set<string>([layout.poles[0]!.id]);
  const front = [...reached];
  for (let id = front.pop(); id !== undefined; id = front.pop())
    for (const way of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      const next = neighbour(layout, id, way);
      if (next === undefined || reached.has(next)) continue;
      reached.add(next);
      front.push(next);
    }
  expect(reached.size).toBe(layout.poles.length);
});

test('a click near a terminal finds it', () => {
  const layout = layoutOf(circuitOf('light-van.yaml'));
  const places = terminalPoints(layout);
  const pole = layout.poles.find((p) => p.id === 'F3')!;
  expect(terminalAt(places, [pole.x + 3, pole.box.y - 2])).toBe(pole.top);
  expect(terminalAt(places, [-500, -500])).toBeUndefined();
});
