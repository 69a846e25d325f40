import { expect, test } from 'vitest';
import { keyChart, pieceSectors } from '../../src/report/keyChart.ts';

const positions = [
  { name: 'LOCK', angle: 0 },
  { name: 'ACC', angle: 30 },
  { name: 'ON', angle: 60 },
  { name: 'START', angle: 90, springsTo: 'ON' },
];
const rings = [
  { id: '30-75', ought: [[22, 74]] as const },
  { id: '30-15', ought: [[48, 95]] as const, does: [[66, 95]] as const },
  { id: '30-50', ought: [[80, 95]] as const },
];
const chart = keyChart({ positions, rings, radius: 286 });

test('one degree of the key is one degree on paper, and back again', () => {
  for (const angle of [0, 1, 30, 77, 90]) {
    expect(chart.turn(angle)).toBe(angle);
    expect(chart.angleAt(chart.turn(angle))).toBe(angle);
  }
  expect(chart.toScale).toBe(true);
});

test('beyond 120 degrees of travel the scale is compressed evenly and says so', () => {
  const wide = keyChart({ positions: [...positions, { name: 'GLOW', angle: 180 }], rings, radius: 286 });
  expect(wide.toScale).toBe(false);
  expect(wide.turn(180)).toBeCloseTo(120, 9);
  expect(wide.angleAt(wide.turn(45))).toBeCloseTo(45, 9);
});

test('positions left of upright turn the whole chart', () => {
  const left = keyChart({ positions: [{ name: 'ACC', angle: -25 }, ...positions.slice(0, 1)], rings: [], radius: 206 });
  expect(left.turn(-25)).toBe(0);
  expect(left.turn(0)).toBe(25);
});

test('a dead sector is a piece of its own; rightly open stretches are none', () => {
  expect(pieceSectors([[48, 95]], [[66, 95]], 0, 94)).toEqual([
    { state: 'missing', from: 48, to: 66 },
    { state: 'closed', from: 66, to: 94 },
  ]);
  expect(pieceSectors([[10, 20]], [[10, 30]], 0, 90)).toEqual([
    { state: 'closed', from: 10, to: 20 },
    { state: 'added', from: 20, to: 30 },
  ]);
  expect(pieceSectors([], [], 0, 90)).toEqual([]);
});

test('no tick stands in a detent, and each fifth is longer', () => {
  const angles = chart.ticks.map((path) => {
    const [x0, y0, x1, y1] = path.match(/-?[\d.]+/g)!.map(Number) as [number, number, number, number];
    return { angle: (Math.atan2(x0, -y0) * 180) / Math.PI, length: Math.hypot(x1 - x0, y1 - y0) };
  });
  for (const { angle, length } of angles) {
    for (const p of positions) expect(Math.abs(angle - p.angle)).toBeGreaterThan(2);
    expect(length).toBeCloseTo(Math.round(angle) % 5 === 0 ? 7 : 3.5, 1);
  }
});

test('names and springs stay inside the box', () => {
  for (const d of chart.detents) {
    expect(d.x).toBeLessThanOrEqual(chart.box.left + chart.box.width);
    expect(d.y).toBeGreaterThanOrEqual(chart.box.top);
    expect(d.y).toBeLessThanOrEqual(chart.box.top + chart.box.height);
  }
  expect(chart.springs).toHaveLength(1);
});
