import { describe, expect, test } from 'vitest';
import type { Candidate } from '../../src/diagnose/candidates.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { actionText, readAction } from '../../src/practice/actionPhrase.ts';
import { type Around, type Bench, type Hidden, newBench } from '../../src/practice/bench.ts';
import { Chance } from '../../src/practice/chance.ts';
import { gradedBy } from '../../src/practice/competence.ts';
import { complaintOf } from '../../src/practice/complaint.ts';
import { debriefOf, type Judged } from '../../src/practice/debrief.ts';
import { hintOf } from '../../src/practice/hint.ts';
import { insightOf } from '../../src/practice/insight.ts';
import { levelOf } from '../../src/practice/level.ts';
import { replayed } from '../../src/practice/session.ts';
import { tableExercise, tableScore } from '../../src/practice/table.ts';
import { solvedBy } from '../../src/practice/technician.ts';
import { update } from '../../src/practice/update.ts';
import { practiceSheet } from '../../src/report/practiceSheet.ts';
import { debriefText, wayLines, worthText } from '../../src/report/practiceText.ts';
import { vehicle } from './vehicles.ts';

const { circuit, predictor } = vehicle('bench-board');
function hiding(...phrases: readonly string[]): Around {
  const faults = phrases.map((p) => {
    const read = readFault(p, circuit);
    if (!read.ok) throw new Error(p);
    return read.value;
  });
  const complaint = complaintOf(predictor, faults, new Chance(1)) ?? { text: '', told: [], drain: false };
  const hidden: Hidden = { circuit, faults, complaint, tools: levelOf(10)!.tools, seed: 3 };
  return { hidden, predictor };
}
function done(around: Around, lines: readonly string[], from: Bench = newBench(circuit)): Bench {
  return lines.reduce((bench, line) => {
    const read = readAction(line, circuit);
    if (!read.ok) throw new Error(`${line}: ${read.why}`);
    return update(around, bench, read.value);
  }, from);
}
const open = hiding('S1.30-15 open at ON');
const best = solvedBy(open.hidden, predictor);

test('the bench shows what the hidden fault does: fires in START, dies as the key springs back', () => {
  const bench = done(open, ['START', 'release']);
  expect(bench.steps.flatMap((s) => s.findings.map((f) => f.phrase))).toEqual(['START: engine fires', 'ON after START: engine dies']);
  expect(bench.scene.engine).toBe('stopped');
});

test('the same actions give the same bench, and every action costs what its place costs, a third later', () => {
  const lines = ['ON', 'volts S1.15', 'volts S1.15'];
  const bench = done(open, lines);
  expect(
    replayed(
      open,
      bench.steps.map((s) => s.action),
    ),
  ).toEqual(bench);
  const [, first, second] = bench.steps;
  expect(first!.minutes).toBeGreaterThan(0);
  expect(second!.minutes / first!.minutes).toBeCloseTo(1 / 3, 10);
});

test.each(['OFF', 'off', 'key OFF', 'key to OFF', 'turn OFF'])(
  '`%s` turns the key, though a part is taken off with the same word',
  (line) => {
    expect(readAction(line, circuit)).toEqual({ ok: true, value: { do: 'turn', angle: 0 } });
  },
);

test('misuse is refused, explained and noted: live ohms, ampere jack, unfused bridge, short through the jumper', () => {
  const bench = done(open, ['ON', 'ohms S1.30 S1.15', 'amps F3', 'volts S1.30', 'unfused bridge S1.30 S1.15', 'bridge G1.+ ground']);
  expect(bench.steps.map((s) => s.trap)).toEqual([undefined, 'live-ohms', undefined, 'ampere-jack', 'unfused-bridge', 'bridge-short']);
  expect(bench.scene.bridged).toEqual([]);
  expect(bench.steps[1]!.minutes).toBe(0);
});

test('a bridge past an open contact wakes what is behind it; a drop without current is marked as idle', () => {
  const bench = done(open, ['ON', 'look T1', 'bridge S1.30 S1.15', 'look T1']);
  expect(bench.steps[1]!.findings[0]!.phrase).toBe('ON: T1 dead');
  expect(bench.steps[3]!.findings[0]!.seen).toEqual({ word: 'works' });
  expect(done(open, ['volts F3.1 F3.2']).steps[0]!.idle).toBe(true);
});

test('the customer tells what a driver can know, and nothing of what works out of sight', () => {
  const radio = done(open, ['ask A1']).steps[0]!;
  expect(radio.findings.length).toBeGreaterThan(2);
  expect(done(open, ['ask K1']).steps[0]!.said).toContain('would not know');
});

test('a fuse that one scene blows is exchanged for the next, which is said and costs', () => {
  const shorted = hiding('W6a short to ground');
  const [on, off] = done(shorted, ['ON', 'OFF']).steps;
  expect(on!.said).not.toContain('had blown');
  expect(off!.said).toContain('F1 had blown; a new one of the same rating is in.');
  const [, sound] = done(open, ['ON', 'OFF']).steps;
  expect(off!.minutes - sound!.minutes).toBe(2);
  expect(off!.money).toBeGreaterThan(0);
  // While the fault blows it here too, nothing has been exchanged.
  expect(done(shorted, ['ON', 'between ON and START']).steps[1]!.said).not.toContain('had blown');
});

test('a repair of the guilty part cures, and the whole table is then as it ought to be', () => {
  const bench = done(open, ['repair S1', 'walk']);
  expect(bench.steps[0]!.said).toContain('cured');
  expect(bench.steps[1]!.said).toContain('everything is as it ought to be');
  expect(bench.money).toBeGreaterThan(0);
});

test('a joint that comes and goes changes when it is moved, and a sound one does not', () => {
  const loose = hiding('X1.3 comes and goes');
  const outcomes = Array.from(
    { length: 12 },
    (_, k) => done({ ...loose, hidden: { ...loose.hidden, seed: k } }, ['wiggle X1']).steps[0]!.figure,
  );
  expect(outcomes.filter((o) => o === 'changes').length).toBeGreaterThan(5);
  expect(done(loose, ['wiggle M1']).steps[0]!.figure).toBe('no change');
});

test.each([
  'ON',
  'ease to 77°',
  'release',
  'key out',
  'S4 open',
  'look',
  'look T1',
  'ask A1',
  'walk',
  'unplug X1',
  'plug X1',
  'wiggle X1',
  'swap S1',
  'repair W5',
  'bridge S1.30 S1.15',
  'unbridge',
  'volts S1.15',
  'volts S1.30 S1.15',
  'lamp S1.15',
  'ohms S1.30 S1.15',
  'clamp G1.-',
  'amps F3',
  'off S1.30 S1.15 at ON',
  'jack volts',
  'hint narrow',
  'name S1.30-15 open at ON',
  'give up',
])('phrase read back: %s', (line) => {
  const read = readAction(line, circuit);
  if (!read.ok && line === 'repair W5') return expect(read.why).toContain('no part');
  if (!read.ok) throw new Error(read.why);
  const again = readAction(actionText(read.value, circuit), circuit);
  expect(again).toEqual(read);
});

test.each(['', 'volts', 'volts S9.1', 'look Q7', 'frobnicate', 'key sideways', 'off S1.30', 'name'])(
  'what cannot be done is answered with what could: "%s"',
  (line) => {
    const read = readAction(line, circuit);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.why.length).toBeGreaterThan(10);
  },
);

test('debrief: right and proved beats right and guessed; an unsafe act stops the marks; a part bought for nothing costs', {
  timeout: 60_000,
}, () => {
  const marks = (lines: readonly string[]) => debriefOf(open, done(open, lines), best, false);
  const good = marks([
    'START',
    'release',
    'ON',
    'look',
    'volts S1.15',
    'volts S1.30 S1.15',
    'repair S1',
    'walk',
    'name S1.30-15 open at ON',
  ]);
  const guessed = marks(['name S1.30-15 open at ON']);
  const unsafe = marks(['START', 'release', 'ON', 'look', 'ohms S1.30 S1.15', 'volts S1.15', 'name S1.30-15 open at ON']);
  const bought = marks([
    'START',
    'release',
    'ON',
    'look',
    'repair K2',
    'volts S1.15',
    'volts S1.30 S1.15',
    'repair S1',
    'walk',
    'name S1.30-15 open at ON',
  ]);
  expect(good.marks.list.map((m) => m.id).sort()).toEqual(Object.keys(gradedBy).sort());
  expect(good.outcome).toBe('named');
  expect(good.proved && good.tableAgain).toBe(true);
  expect(good.marks.total).toBeGreaterThan(guessed.marks.total);
  expect(unsafe.marks).toMatchObject({ total: 0, stopped: true });
  expect(bought.marks.total).toBeLessThan(good.marks.total);
  expect(marks(['name H1 open']).outcome).toBe('wrong');
  expect(marks(['give up']).marks.total).toBeLessThan(20);
});

test("the better way is the apprentice's where it is shorter, proved and safe; the technician's is never called the shortest", {
  timeout: 60_000,
}, () => {
  const way = ['START', 'release', 'ON', 'look', 'volts S1.15', 'volts S1.30 S1.15'];
  const end = ['repair S1', 'walk', 'name S1.30-15 open at ON'];
  const against = (minutes: number, lines: readonly string[]) =>
    debriefOf(open, done(open, lines), { ...best, minutes, readings: 8 }, false);
  const own = against(1000, [...way, ...end]);
  expect(own.best).toEqual({ by: 'apprentice', minutes: own.minutes, readings: expect.any(Number) as number });
  // Two volts readings, two things that the engine did, one look round: none of what came after the repair.
  expect(own.best.readings).toBeLessThan(own.steps.length);
  expect(wayLines(own).join(' ')).toMatch(
    /^Your way was the shorter one: \d+ looks and readings, \d+ min\. How the technician went: 8 looks/,
  );
  const slower = against(0.5, [...way, ...end]);
  expect(slower.best).toEqual({ by: 'technician', minutes: 0.5, readings: 8 });
  expect(wayLines(slower)).toEqual(['How the technician went: 8 looks and readings, 1 min.']);
  for (const d of [own, slower])
    for (const text of [debriefText(d, circuit), practiceSheet(d, circuit, '')]) {
      expect(text).toContain('How the technician went');
      expect(text).not.toMatch(/shortest/i);
    }
  expect(against(1000, ['name S1.30-15 open at ON']).best.by, 'a guess').toBe('technician');
  expect(against(1000, [...way, 'ohms S1.30 S1.15', ...end]).best.by, 'unsafe').toBe('technician');
  // One more redundant reading never pays, whoever was quicker.
  for (const minutes of [0.5, own.minutes, 1000]) {
    const [plain, longer] = [way, [...way, 'volts S1.15']].map((lines) => against(minutes, [...lines, ...end]).marks.total);
    expect(longer).toBeLessThanOrEqual(plain!);
  }
});

describe('"Better" in the debrief', () => {
  const [step] = done(open, ['ON', 'volts S1.30 S1.15']).steps.slice(-1);
  const reading: Candidate = {
    scene: step!.findings[0]!.scene,
    observable: { of: 'load', load: 'H3' },
    minutes: 1,
    price: 0,
    cautions: [],
    effort: 1,
  };
  const taken: Judged = {
    step: { ...step!, minutes: 1 },
    index: 1,
    bits: 0.5,
    redundant: false,
    proof: false,
    before: 19,
    left: 16,
    best: { reading, bits: 2, minutes: 1 },
    certain: false,
  };
  test('is said where another reading could have told four times as much for the same minutes', () => {
    expect(worthText(taken, circuit)).toContain('Better: look at H3');
  });
  test.each([
    ['proved the place', { left: 1, certain: true }],
    ['was expected to tell as much', { bits: 2 }],
    ['was worth as much by the minute', { step: { ...taken.step, minutes: 0.02 }, bits: 0.6 }],
    ['halved the suspects twice, as the best was expected to', { left: 4 }],
  ] as const)('is not said of a reading that %s', (_what, is) => {
    expect(worthText({ ...taken, ...is }, circuit)).not.toContain('Better');
  });
});

test('a belief is named only when the stated actions show it', { timeout: 60_000 }, () => {
  const shown = (lines: readonly string[]) => debriefOf(open, done(open, lines), best, false).misconceptions.map((m) => m.id);
  expect(shown(['START', 'release', 'volts S1.15', 'repair S1', 'name S1.30-15 open at ON'])).toEqual([]);
  expect(shown(['repair H1', 'name H1 open'])).toContain('complaint-is-cause');
});

test('hints follow from the findings: the same for two hidden faults that have shown the same so far', () => {
  const other = hiding('S1.30-15 open');
  const findings = done(open, ['ON', 'look']).steps.flatMap((s) => s.findings);
  const insight = insightOf(predictor, findings);
  for (const strength of ['ask', 'narrow', 'show'] as const) {
    const hint = hintOf(predictor, insight, other.hidden.tools, strength);
    expect(hint.length).toBeGreaterThan(30);
    expect(hint).not.toContain('S1.30-15 open at ON');
  }
});

test('levels 1 and 2 ask ten cells, and the answers are those of the table', () => {
  for (const level of [1, 2] as const) {
    const exercise = tableExercise(circuit, level, 4);
    expect(exercise.questions.length).toBe(10);
    expect(
      tableScore(
        exercise,
        exercise.questions.map((q) => q.answer),
      ),
    ).toBe(100);
    expect(tableScore(exercise, [])).toBe(0);
    expect(exercise).toEqual(tableExercise(circuit, level, 4));
  }
});

test('an engine that lives by a jumper dies when the jumper is taken off', () => {
  const held = done(open, ['bridge S1.30 S1.15', 'START', 'release']);
  expect(held.scene.engine).toBe('running');
  expect(done(open, ['unbridge'], held).scene.engine).toBe('stopped');
});

test('the whole table is run with everything in and no jumper on', () => {
  for (const line of ['unplug F1', 'bridge S1.30 S1.15']) {
    const walk = done(open, [line, 'walk']).steps.at(-1)!;
    expect(walk.findings).toEqual([]);
    expect(walk.minutes).toBe(0);
  }
});

test('a clamp round a switch with many ways is refused, round its terminal it reads', () => {
  const refused = done(open, ['ON', 'clamp S1']).steps.at(-1)!;
  expect(refused.said).toMatch(/More than one way leads through S1/);
  expect(refused.figure).toBeUndefined();
  expect(done(open, ['START', 'clamp S1.30']).steps.at(-1)!.figure).toBeDefined();
});

test('what is refused moves nothing: a loose joint does not change its mind for nothing', () => {
  const before = done(open, ['ON']);
  const after = done(open, ['swap XE1'], before);
  expect(after.steps.at(-1)!.minutes).toBe(0);
  expect(after.handled).toBe(before.handled);
});
