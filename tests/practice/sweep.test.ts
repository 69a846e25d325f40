import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { worldsOf } from '../../src/faults/fault.ts';
import type { Action } from '../../src/practice/action.ts';
import { byChance, byEngine, byHalves } from '../../src/practice/apprentices.ts';
import type { Around, Bench } from '../../src/practice/bench.ts';
import { newBench } from '../../src/practice/bench.ts';
import { debriefOf } from '../../src/practice/debrief.ts';
import { type Exercise, makeExercise } from '../../src/practice/exercise.ts';
import { exerciseFileText, openedExercise, readExerciseFile, writtenExercise } from '../../src/practice/exerciseFile.ts';
import { kept as keptSession } from '../../src/practice/session.ts';
import { update } from '../../src/practice/update.ts';
import { engineRow, positionTable } from '../../src/solve/positionTable.ts';
import { circuitNames, vehicle } from './vehicles.ts';

/**
 * Exercises of the sweep. The ordinary run takes a few on small circuits. `npm run exercises` takes 1000 over every circuit
 * and level in turn, seeds counting up, and writes each as a line of artifacts/exercises.jsonl: stopped and started
 * again, it goes on where it was. SWEEP=100 takes fewer, SWEEP_ON=boat,truck keeps to those circuits.
 */
const count = process.env['SWEEP'] === undefined ? undefined : Number(process.env['SWEEP']);
const levels = [3, 4, 5, 6, 7, 8, 9, 10, 11];
const names = process.env['SWEEP_ON']?.split(',') ?? circuitNames;

type Row = { readonly name: string; readonly level: number; readonly seed: number };
/** Every kind of search once on the small board, and two of them on boards of the library. */
const share: readonly Row[] = [
  ...[3, 4, 5, 6, 7, 8, 9, 10, 11].map((level) => ({ name: 'small-board', level, seed: 1 })),
  { name: 'bench-board', level: 3, seed: 1 },
  { name: 'boat', level: 8, seed: 1 },
];
const all: readonly Row[] =
  count === undefined
    ? share
    : Array.from({ length: count }, (_, k) => ({
        name: names[k % names.length]!,
        level: levels[(k * 5 + Math.floor(k / names.length)) % levels.length]!,
        seed: 1 + Math.floor(k / (names.length * levels.length)),
      }));

type Figures = Row & {
  /** False where the circuit holds no such exercise; then there is nothing else. */
  readonly made: boolean;
  readonly readings?: number;
  readonly minutes?: number;
  readonly rivals?: number;
  readonly engine?: number;
  readonly halves?: number;
  readonly chance?: number;
};
const kept = count === undefined ? undefined : 'artifacts/exercises.jsonl';
const figures: Figures[] = keptLines();
const isKept = (r: Row) => figures.some((f) => f.name === r.name && f.level === r.level && f.seed === r.seed);
const rows = all.filter((r) => !isKept(r));

function keptLines(): Figures[] {
  if (kept === undefined || !existsSync(kept)) return [];
  const lines = readFileSync(kept, 'utf8')
    .split('\n')
    .filter((l) => l.trim() !== '');
  const wanted = new Set(all.map((r) => `${r.name} ${r.level} ${r.seed}`));
  return lines.map((l) => JSON.parse(l) as Figures).filter((f) => wanted.has(`${f.name} ${f.level} ${f.seed}`));
}

function keep(line: Figures): void {
  figures.push(line);
  if (kept === undefined) return;
  mkdirSync('artifacts', { recursive: true });
  appendFileSync(kept, `${JSON.stringify(line)}\n`);
}

test.each(rows)('exercise of level $level on $name, seed $seed', { timeout: 3_600_000 }, ({ name, level, seed }) => {
  const { circuit, predictor } = vehicle(name);
  const made = makeExercise(circuit, level, seed, predictor);
  if (!made.ok) {
    expect(made.why).toContain(circuit.title);
    keep({ name, level, seed, made: false });
    return;
  }
  const exercise = made.value;
  expect(exercise.best.proven, 'the simulated technician proves the cause').toBe(true);
  contradictsNothing(exercise);
  leaksNothing(exercise);
  const around: Around = { hidden: exercise, predictor };
  const marks = (bench: Bench) => debriefOf(around, bench, exercise.best, false).marks.total;
  const engineBench = byEngine(exercise, predictor);
  const engine = marks(engineBench);
  redundantNeverHelps(around, engineBench, engine, marks);
  const [halves, chance] = [marks(byHalves(exercise, predictor)), marks(byChance(exercise, predictor))];
  keep({ name, level, seed, made: true, ...exercise.difficulty, engine, halves, chance });
});

const mean = (list: readonly number[]) => list.reduce((sum, x) => sum + x, 0) / Math.max(1, list.length);
const scores = (who: 'chance' | 'halves' | 'engine', of: readonly Figures[]) => mean(of.flatMap((f) => f[who] ?? []));

/** What the sweep found, level by level: nothing that broke a rule is among them, for that fails its own test. */
function report(): string {
  const made = figures.filter((f) => f.made);
  const line = (head: string, of: readonly Figures[]) => {
    const held = of.filter((f) => f.made);
    const figure = (x: number) => x.toFixed(1).padStart(7);
    const ofMade = [
      mean(held.map((f) => f.readings!)),
      mean(held.map((f) => f.minutes!)),
      mean(held.map((f) => f.rivals!)),
      scores('chance', held),
      scores('halves', held),
      scores('engine', held),
    ];
    return `${head.padEnd(9)} ${String(held.length).padStart(5)} ${String(of.length - held.length).padStart(5)} ${held.length === 0 ? '' : ofMade.map(figure).join(' ')}`;
  };
  return [
    `${figures.length} asked for, ${made.length} made, each of them proved by the simulated technician; no complaint contradicts the table, no answer in what is kept or written, no redundant reading paid.`,
    'level      made  none  reads     min  rivals  chance  halves  engine',
    ...levels.map((level) =>
      line(
        `level ${level}`,
        figures.filter((f) => f.level === level),
      ),
    ),
    line('together', figures),
  ].join('\n');
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
  const session = JSON.stringify(keptSession(exercise, newBench(exercise.circuit)));
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

/** A reading taken twice, and one of the battery with nothing asked: neither pays, at the end or at once. */
function redundantNeverHelps(around: Around, bench: Bench, total: number, marks: (bench: Bench) => number): void {
  const actions = bench.steps.map((s) => s.action);
  const again = actions.find((a) => a.do === 'volts' || a.do === 'look');
  if (!again) return;
  const last = actions.findIndex((a) => a.do === 'repair' || a.do === 'walk' || a.do === 'name');
  for (const at of [actions.indexOf(again) + 1, last]) {
    const longer: readonly Action[] = [...actions.slice(0, at), again, ...actions.slice(at)];
    const replay = longer.reduce((b, a) => update(around, b, a), newBench(around.hidden.circuit));
    expect(marks(replay)).toBeLessThanOrEqual(total);
  }
}

test('simulated apprentices rank by mean score: chance, halves, engine', () => {
  if (count !== undefined) console.log(report());
  expect(figures.some((f) => f.made)).toBe(true);
  if (count === undefined) expect(levels.filter((l) => !figures.some((f) => f.made && f.level === l))).toEqual([]);
  expect(scores('engine', figures)).toBeGreaterThan(scores('halves', figures));
  expect(scores('halves', figures)).toBeGreaterThan(scores('chance', figures));
});
