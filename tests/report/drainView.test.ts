import { describe, expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { drainAnswer } from '../../src/drain/drainAnswer.ts';
import type { Log } from '../../src/drain/log/readLog.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { drainView } from '../../src/report/drainView.ts';
import { vehicle } from '../circuits/vehicle.ts';

const { circuit } = vehicle('light-van');
const predictor = new Predictor(circuit);
const fault = readFault('G2 diode leaks 160 mA', circuit);
const saw = readFinding('key out: 186 mA at G1.-, 0.0 mV from F1.1 to F1.2', circuit);
if (!fault.ok || !saw.ok) throw new Error('not read');
/** Six hours, one row in two seconds; a draw of 0.4 A comes every half hour. Invented. */
const log: Log = {
  seconds: Float64Array.from({ length: 10_800 }, (_, k) => 2 * k),
  amperes: Float64Array.from({ length: 10_800 }, (_, k) => 0.02 + ((2 * k) % 1800 < 120 ? 0.4 : 0) + (k % 3) * 1e-4),
  warnings: [],
  skipped: 0,
  turned: false,
};
const view = drainView(drainAnswer(circuit, { suspect: fault.value, findings: saw.value, log }, predictor));
const numbers = (path: string): readonly number[] => (path.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);

test('the result is a sentence, with times and days behind it', () => {
  expect(view.sentence).toBe('186 mA with the key out');
  expect(view.meaning).toMatch(/^21 times the 8\.9 mA that it should draw\. Too flat to crank in \d/);
});

describe('the bar', () => {
  const { bar } = view;
  test('items follow one another from the left without gaps, to scale', () => {
    let at = 0;
    for (const item of bar.items) {
      expect(item.from).toBeCloseTo(at, 9);
      expect(item.to - item.from).toBeCloseTo(item.amperes / bar.most_A, 9);
      at = item.to;
    }
    expect(at).toBeLessThanOrEqual(1);
  });

  test('designed, supposed and not explained add up to what was read', () => {
    expect(bar.items.map((i) => i.is)).toEqual(['designed', 'designed', 'designed', 'supposed', 'unexplained']);
    expect(bar.items.at(-1)!.to).toBeCloseTo(bar.reading!.at, 9);
    expect(bar.unexplained).toBe('17 mA not explained yet');
    expect(bar.allowed.amperes).toBe(0.03);
  });
});

describe('the curve', () => {
  const curve = view.curve!;
  test('both lines begin full at the left and fall; the band holds the leading line', () => {
    for (const l of curve.lines) {
      const [x, y, ...rest] = numbers(l.path);
      expect([x, y]).toEqual([0, 0]);
      const heights = rest.filter((_, k) => k % 2 === 1);
      expect(heights).toEqual([...heights].sort((a, b) => a - b));
    }
    expect(curve.lines.map((l) => l.is)).toEqual(['designed', 'now']);
    for (const n of numbers(curve.band)) expect(n).toBeLessThanOrEqual(curve.width);
  });

  test('it meets the no-start line where the days say', () => {
    expect(curve.meets!.y).toBe(curve.noStart.y);
    expect(curve.meets!.x).toBeGreaterThan(0);
    expect(curve.meets!.x).toBeLessThan(curve.width);
    expect(curve.noStart.label).toMatch(/^below \d+ % it no longer cranks at 20 °C$/);
  });
});

test('the card says what would be so, and by what it falls', () => {
  const card = view.card!;
  expect(card.ifTrue[0]).toBe('the battery cable reads 169 mA, not 8.9 mA');
  expect(card.ifTrue).toContain('the cable at G2.B+ reads 161 mA');
  expect(card.fallsIf).toContain('the cable at G2.B+ reads 1.0 mA');
  expect(card.verdict).toBe('open');
  expect(card.held.every((h) => h.fits)).toBe(true);
});

test('the fuse table holds what was read with the current it stands for', () => {
  const [first] = view.fuses;
  expect(first).toMatchObject({ fuse: 'F1', rating: '16 A', feeds: 'Clock, Horn, Interior lamp', read: '0.0' });
  expect(first!.readAmperes).toMatch(/^under \d+ mA$/);
  expect(view.fuseNote).toBe('No fuse would show a difference: what leaves before the fuses is read at the studs, or by unplugging.');
});

describe('the log chart', () => {
  const chart = view.log!;
  test('every point lies in its box, however many rows', () => {
    for (const path of [chart.rows, chart.levels]) {
      const all = numbers(path);
      expect(all.length).toBeGreaterThan(10);
      expect(all.length).toBeLessThan(8 * chart.width);
      for (const n of all) expect(n).toBeGreaterThanOrEqual(0);
      expect(Math.max(...all.filter((_, k) => k % 2 === 0))).toBeLessThanOrEqual(chart.width);
      expect(Math.max(...all.filter((_, k) => k % 2 === 1))).toBeLessThanOrEqual(chart.height);
    }
    expect(chart.unit).toBe('h');
    expect(chart.marks.length).toBeGreaterThan(0);
  });

  test('what beats is said once, not step by step', () => {
    expect(view.logLines.filter((l) => l.includes('comes and goes'))).toHaveLength(1);
    expect(view.logLines.length).toBeLessThan(6);
  });
});

test('the whole view is plain data', () => {
  expect(JSON.parse(JSON.stringify(view))).toMatchObject({ sentence: view.sentence });
});

test('a healthy vehicle is as it should be, and nothing is unexplained', () => {
  const sound = drainView(drainAnswer(circuit, {}, predictor));
  expect(sound.meaning).toMatch(/^As it should be\./);
  expect(sound.bar.unexplained).toBeUndefined();
  expect(sound.card).toBeUndefined();
  expect(sound.curve!.lines).toHaveLength(1);
});
