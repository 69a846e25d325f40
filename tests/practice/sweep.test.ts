import { writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { worldsOf } from '../../src/faults/fault.ts';
import type { Action } from '../../src/practice/action.ts';
import { byChance, byEngine, byHalves } from '../../src/practice/apprentices.ts';
import type { Around, Bench } from '../../src/practice/bench.ts';
import { newBench } from '../../src/practice/bench.ts';
import { debriefOf } from '../../src/practice/debrief.ts';
import { type Exercise, makeExercise } from '../../src/practice/exercise.ts';
import { exerciseFileText, openedExercise, readExerciseFile, writtenExercise } from '../../src/practice/exerciseFile.ts';
import { kept } from '../../src/practice/session.ts';
import { update } from '../../src/practice/update.ts';
import { engineRow, positionTable } from '../../src/solve/positionTable.ts';
import { circuitNames, vehicle } from './vehicles.ts';

/**
 * Exercises of the sweep: every circuit and level in turn, seeds counting up. `SWEEP=1000 npx vitest run --project unit
 * tests/practice/sweep.test.ts` takes the whole, with `SWEEP_OUT=file` writes its figures, with `SWEEP_ON=boat,truck` keeps to those circuits; the ordinary run takes a share.
 */
const count = Number(process.env['SWEEP'] ?? 6);
const first = Number(process.env['SWEEP_FROM'] ?? 0);
const levels = [3, 4, 5, 6, 7, 8, 9, 10, 11];
const quick = ['bench-board', 'boat', 'motorcycle', 'tractor'];
const names = process.env['SWEEP_ON']?.split(',') ?? (process.env['SWEEP'] === undefined ? quick : circuitNames);

const rows = Array.from({ length: count }, (_, n) => {
  const k = n + first;
  return {
    name: names[k % names.length]!,
    level: levels[(k * 5 + Math.floor(k / names.length)) % levels.length]!,
    seed: 1 + Math.floor(k / (names.length * levels.length)),
  };
});

type Figures = {
  level: number;
  circuit: string;
  solved: boolean;
  readings: number;
  minutes: number;
  rivals: number;
  engine: number;
  halves: number;
  chance: number;
};
const figures: Figures[] = [];
const none: string[] = [];

test.each(rows)('exercise of level $level on $name, seed $seed', { timeout: 600_000 }, ({ name, level, seed }) => {
  const { circuit, predictor } = vehicle(name);
  const made = makeExercise(circuit, level, seed, predictor);
  if (!made.ok) {
    none.push(`${name} ${level}`);
    expect(made.why).toContain(circuit.title);
    return;
  }
  const exercise = made.value;
  expect(exercise.best.proven, 'the simulated technician proves the cause').toBe(true);
  contradictsNothing(exercise);
  leaksNothing(exercise);
  const around: Around = { hidden: exercise, predictor };
  const marks = (bench: Bench) => debriefOf(around, bench, exercise.best, false).marks.total;
  const engine = byEngine(exercise, predictor);
  const total = marks(engine);
  redundantNeverHelps(around, engine, total, marks);
  figures.push({
    level,
    circuit: name,
    solved: exercise.best.proven,
    ...exercise.difficulty,
    engine: total,
    halves: marks(byHalves(exercise, predictor)),
    chance: marks(byChance(exercise, predictor)),
  });
  written();
});

const mean = (list: readonly number[]) => list.reduce((sum, x) => sum + x, 0) / Math.max(1, list.length);
function written(): void {
  const out = process.env['SWEEP_OUT'];
  if (out === undefined) return;
  const of = (who: 'chance' | 'halves' | 'engine') => mean(figures.map((f) => f[who]));
  writeFileSync(
    out,
    JSON.stringify({ made: figures.length, none, chance: of('chance'), halves: of('halves'), engine: of('engine'), figures }, null, 1),
  );
}

/** Every told finding is a cell of the position table, with the verdict that the table shows. */
function contradictsNothing({ circuit, faults, complaint }: Exercise): void {
  const table = positionTable(circuit, worldsOf(faults), { between: true });
  const cranking = ['fires', 'cranks', 'cranks slowly'];
  for (const { scene, observable, seen, phrase } of complaint.told) {
    const id = observable.of === 'load' ? observable.load : engineRow;
    const row = table.rows.find((r) => r.id === id)!;
    const k = table.positions.findIndex((p) => !scene.key || (p.key.angle === scene.key.angle && p.key.came === scene.key.came));
    const cell = row.cells[k] ?? row.cells[table.positions.findIndex((p) => p.key.angle === scene.key?.angle)]!;
    const possible = [cell.verdict, ...(cell.sometimes ? [cell.sometimes.verdict] : [])].map(String);
    if ('word' in seen)
      expect(seen.word === 'comes and goes' ? cell.sometimes !== undefined : possible.includes(seen.word), phrase).toBe(true);
    else if ('engine' in seen) {
      const turns = cranking.includes(seen.engine);
      expect(
        possible.some((v) => (turns ? v === 'cranks' : seen.engine === 'runs' ? v === 'runs' : v === 'still' || v === 'runs')),
        phrase,
      ).toBe(true);
    }
  }
  expect(complaint.text.length).toBeGreaterThan(10);
  for (const f of faults) expect(complaint.text.includes(f.mode.subject)).toBe(false);
}

/** What is kept of a session, and a file with a pass-word, hold neither the phrase nor its words. */
function leaksNothing(exercise: Exercise): void {
  const file = exerciseFileText({ title: 'one', exercises: [writtenExercise(exercise, 'circuit.yaml', 'brass')] });
  const session = JSON.stringify(kept(exercise, newBench(exercise.circuit)));
  for (const { phrase, mode } of exercise.faults)
    for (const secret of [phrase, mode.text, `${mode.subject} ${mode.words}`.trim()]) {
      expect(file.includes(secret)).toBe(false);
      expect(session.includes(secret)).toBe(false);
    }
  const read = readExerciseFile(file);
  if (!read.ok) throw new Error(read.why);
  const opened = openedExercise(read.value.exercises[0]!, exercise.circuit, 'brass');
  expect(opened.ok && opened.value.faults.map((f) => f.phrase)).toEqual(exercise.faults.map((f) => f.phrase));
  expect(openedExercise(read.value.exercises[0]!, exercise.circuit, 'copper').ok).toBe(false);
}

/** A reading taken twice, and one at the battery with everything off, put in at every third place. */
function redundantNeverHelps(around: Around, bench: Bench, total: number, marks: (bench: Bench) => number): void {
  const actions = bench.steps.map((s) => s.action);
  const readings = bench.steps.filter((s) => s.action.do === 'volts').map((s) => s.action);
  const again = readings[0];
  if (!again) return;
  const at = actions.indexOf(again) + 1;
  const longer: readonly Action[] = [...actions.slice(0, at), again, ...actions.slice(at)];
  const replay = longer.reduce((b, a) => update(around, b, a), newBench(around.hidden.circuit));
  expect(marks(replay)).toBeLessThanOrEqual(total);
}

test('simulated apprentices rank by mean score: chance, halves, engine', () => {
  const [chance, halves, engine] = [figures.map((f) => f.chance), figures.map((f) => f.halves), figures.map((f) => f.engine)].map(mean) as [
    number,
    number,
    number,
  ];
  expect(figures.length).toBeGreaterThan(0);
  expect(engine).toBeGreaterThan(halves);
  expect(halves).toBeGreaterThan(chance);
});
