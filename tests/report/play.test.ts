// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import { changing, playChart } from '../../src/report/playChart.ts';
import { playData } from '../../src/report/playData.ts';
import { playSvg } from '../../src/report/playSvg.ts';
import { gathered, playText } from '../../src/report/playText.ts';
import { timeLine, timeText } from '../../src/report/playTime.ts';
import { playAt, playView } from '../../src/report/playView.ts';
import { vehicle } from '../circuits/vehicle.ts';
import { told } from '../play/told.ts';

const van = vehicle('light-van').circuit;
const fault = 'S1.30-15 open at ON';
const { played } = told(van, 'LOCK, ON 2 s, START 1.5 s, ease to 70° 3 s, release, ON 5 s', [fault]);
const view = playView(played, van, ['S1.15', 'S1.nowhere']);
const weeks = playView(told(van, 'ON 2 s, START 1 s, key out 21 days').played, van);

describe('the view of a story', () => {
  test('has a strip for every load, without holes, from begin to end', () => {
    for (const { stretches } of view.loads) {
      expect(stretches[0]?.from).toBe(0);
      expect(stretches.at(-1)?.to).toBeCloseTo(view.seconds, 9);
      for (const [k, s] of stretches.entries()) {
        expect(s.to).toBeGreaterThan(s.from);
        if (k > 0) expect([s.from, s.word !== stretches[k - 1]!.word]).toEqual([stretches[k - 1]!.to, true]);
      }
    }
  });
  test('keeps chosen terminals that there are', () => {
    expect(view.terminals.map((t) => t.terminal)).toEqual(['S1.15']);
  });
  test('tells at a time where the key is, what the engine does, what works', () => {
    const eased = playAt(view, 6);
    expect(eased.angle).toBeCloseTo(70, 6);
    expect(eased).toMatchObject({ came: 'back', engine: 'runs' });
    expect(eased.loads.find((l) => l.id === 'T1')?.verdict).toBe('works');
    const turning = playAt(view, 0.1);
    expect(turning.angle).toBeCloseTo(15, 0); // 150° a second
    expect(turning.came).toBe('up');
    expect(playAt(view, 1e9).engine).toBe('still');
    expect(playAt(view, -1).angle).toBe(0);
  });
  test('agrees with the sample of that moment', () => {
    for (const sample of played.samples.slice(0, -1).filter((s, k) => played.samples[k + 1]!.t > s.t)) {
      const now = playAt(view, sample.t);
      expect(now.loads.map((l) => l.verdict)).toEqual(sample.loads.map((l) => l.verdict));
      expect(now.engine).toBe(sample.engine);
      expect(now.speed).toBeCloseTo(sample.speed, 6);
    }
  });
});

describe('time on a line', () => {
  test('is even where the steps are of one size', () => {
    const line = timeLine(view, 0, 100);
    expect(line.toScale).toBe(true);
    expect(line.at(view.seconds / 2)).toBeCloseTo(50, 6);
    expect(line.back(line.at(3.3))).toBeCloseTo(3.3, 9);
  });
  test('shows seconds beside weeks, and says that it is not to scale', () => {
    const line = timeLine(weeks, 0, 100);
    expect(line.toScale).toBe(false);
    expect(line.at(weeks.steps[1]!.t)).toBeGreaterThan(1);
    expect(line.at(weeks.seconds)).toBeCloseTo(100, 9);
    for (let x = 1; x <= 100; x++) expect(line.back(x)).toBeGreaterThan(line.back(x - 1));
  });
  test.each([
    [2.5, '2.50 s'],
    [200, '3 min 20 s'],
    [7300, '2 h 1 min'],
    [200_400, '2 d 7 h 40 min'],
  ])('%f s is %s', (seconds, text) => {
    expect(timeText(seconds)).toBe(text);
  });
});

describe('a story as text', () => {
  const text = playText(view, [fault]);
  test('fits 80 columns, and 60', () => {
    for (const columns of [80, 60])
      for (const line of playText(view, [fault], columns).split('\n')) expect([...line].length, line).toBeLessThanOrEqual(columns);
  });
  test('tells what happened, with names, and a strip for what changed', () => {
    expect(text).toContain(fault);
    expect(text).toMatch(/ {2}engine {2}engine dies/);
    expect(text).toMatch(/^T1 Ignition coil .*█+·+$/m);
    expect(text).toMatch(/^key .*\|START/m);
    expect(text).toMatch(/dead all the time: .*E13/s);
    expect(text).toMatch(/G1: least \d+\.\d\d V at .*charge 99/);
  });
  test('says when time is not to scale', () => {
    expect(playText(weeks, [])).toContain('not to scale');
    expect(text).not.toContain('not to scale');
  });
  test('gathers the beats of a flasher', () => {
    const beats = told(van, 'ON 1 s, S12 at left 10 s').played.events;
    const list = gathered(beats).filter((e) => e.part === 'K1');
    expect(list).toHaveLength(2);
    expect(list[0]!.again).toBeGreaterThan(10);
    expect(gathered(beats).reduce((sum, e) => sum + 1 + e.again, 0)).toBe(beats.length);
  });
});

describe('a story as a chart', () => {
  const chart = playChart(view, 960);
  test('keeps every lane within the sheet, none over another', () => {
    for (const [k, lane] of chart.lanes.entries()) {
      expect(lane.top + lane.height).toBeLessThan(chart.height);
      if (k > 0) expect(lane.top).toBeGreaterThanOrEqual(chart.lanes[k - 1]!.top + chart.lanes[k - 1]!.height);
      if (lane.is === 'strip') {
        for (const bar of lane.bars) {
          expect(bar.x).toBeGreaterThanOrEqual(chart.left - 1e-6);
          expect(bar.x + bar.width).toBeLessThanOrEqual(chart.right + 1.01);
        }
      } else expect(lane.path).toMatch(/^M[\d.,LM-]+$/);
    }
  });
  test('has key, engine, battery, the chosen terminal, and the loads on which anything happens', () => {
    expect(chart.lanes.map((l) => l.title).slice(0, 5)).toEqual(['Key', 'Engine speed', 'Engine', 'G1 Battery', 'S1.15']);
    expect(chart.lanes.slice(5).map((l) => l.title)).toEqual(changing(view).map((l) => `${l.id} ${l.name}`));
  });
  test('is SVG that parses, with a title, a description in words, and no ink but its own', () => {
    const svg = playSvg(view, { faults: [fault] });
    const parsed = new DOMParser().parseFromString(svg, 'image/svg+xml');
    expect(parsed.querySelector('parsererror')).toBeNull();
    expect(parsed.querySelector('title')?.textContent).toContain(van.title);
    const words = parsed.querySelector('desc')?.textContent ?? '';
    for (const said of [fault, 'Key: LOCK at 0.00 s', 'Engine: still from 0.00 s, cranks from', 'engine dies'])
      expect(words).toContain(said);
    expect(svg).toContain('not print');
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });
  test('says by form and word what tone says: works full, weak hatched, dead a line', () => {
    const svg = playSvg(view);
    for (const word of ['works', 'dead', 'cranks', 'runs']) expect(svg).toContain(`>${word}</text>`);
    expect(svg).toContain('url(#weak)');
  });
});

test('a story as data has the fields that outsiders read', () => {
  const data = JSON.parse(JSON.stringify(playData(played, view, [fault]))) as ReturnType<typeof playData>;
  expect(data.samples.length).toBe(played.samples.length);
  for (const sample of data.samples) {
    expect(Object.keys(sample)).toEqual(expect.arrayContaining(['t', 'key', 'engine', 'loads']));
    expect(Object.keys(sample.loads)).toEqual(view.loads.map((l) => l.id));
  }
  for (const event of data.events) expect(Object.keys(event)).toEqual(['t', 'what', 'part']);
  expect(new Set(data.samples.map((s) => s.key))).toEqual(
    new Set(['LOCK', 'ON', 'START', ...data.samples.map((s) => s.key!).filter((k) => k.endsWith('°'))]),
  );
  expect(data.samples.at(-1)?.engine).toBe('still');
});
