import { expect, test } from 'vitest';
import { byApprentice, type ClassRow, classSheetText, readClassSheet, withLine } from '../../src/practice/classSheet.ts';
import { competences, gateOf, gradedBy } from '../../src/practice/competence.ts';
import { levelsOf } from '../../src/practice/hidden.ts';
import { levels } from '../../src/practice/level.ts';
import { isHeld, joinedResults, nextLevel, progressText, type Result, readProgress, standings } from '../../src/practice/progress.ts';
import { circuitNames, vehicle } from './vehicles.ts';

const at = (level: number, ...scores: readonly number[]): readonly Result[] =>
  scores.map((score, k) => ({ level, circuit: 'van', seed: k + 1, score }));

test('the next exercise stands at the edge of skill', () => {
  expect(nextLevel([]).level).toBe(1);
  expect(nextLevel(at(1, 90)).level).toBe(1);
  expect(nextLevel(at(1, 90, 80)).level).toBe(2);
  expect(isHeld(at(1, 90, 60), 1)).toBe(false);
});

test('two exercises under 40 lead one rung down; every fourth repeats a held rung', () => {
  expect(nextLevel([...at(1, 90, 90), ...at(2, 30, 20)]).level).toBe(1);
  expect(nextLevel([...at(1, 90, 90), ...at(2, 50)]).level).toBe(1);
  expect(nextLevel([...at(1, 90, 90), ...at(2, 50, 50)]).level).toBe(2);
});

test('progress and class sheet read back as they were written, formulas made harmless', () => {
  const results = at(3, 70, 80);
  expect(readProgress(progressText(results))).toEqual(results);
  expect(readProgress('no')).toBeUndefined();
  const row = {
    name: '=Kim, A.',
    circuit: 'van',
    level: 3,
    seed: 7,
    outcome: 'named',
    score: 80,
    minutes: 12,
    bestMinutes: 9,
    readings: 4,
    money: 60,
    unsafe: 0,
    hints: 1,
  };
  const text = classSheetText([row]);
  expect(text).toContain("'=Kim");
  expect(readClassSheet(text)).toEqual({ ok: true, rows: [row] });
  // A name that begins with an apostrophe of its own keeps it.
  const own = { ...row, name: "'t Veld, J." };
  expect(readClassSheet(classSheetText([own]))).toEqual({ ok: true, rows: [own] });
  expect(readClassSheet('a,b\n')).toMatchObject({ ok: false });
});

test('levels that a vehicle has no fault for are not offered, and every vehicle has levels to offer', () => {
  expect(nextLevel([], [2, 4]).level).toBe(2);
  for (const name of circuitNames) expect(levelsOf(vehicle(name).circuit).length).toBeGreaterThan(7);
  expect(levelsOf(vehicle('light-van').circuit)).toEqual(levels.map((l) => l.number));
});

test('every level has its standing, and a progress file joined twice adds nothing the second time', () => {
  const own = [...at(1, 90, 80), ...at(3, 20)];
  expect(standings(own).slice(0, 4)).toEqual([
    { level: 1, done: 2, last: [90, 80], held: true },
    { level: 2, done: 0, last: [], held: false },
    { level: 3, done: 1, last: [20], held: false },
    { level: 4, done: 0, last: [], held: false },
  ]);
  const brought = [...own, ...at(3, 75)];
  const joined = joinedResults(own, brought);
  expect(joined).toEqual(brought.map((r) => r));
  expect(joinedResults(joined, brought)).toEqual(joined);
  expect(joinedResults([], brought)).toEqual(brought);
});

test('class sheet: a list of names comes in, a line takes the empty place of its apprentice, one line an apprentice sums up', () => {
  const list = readClassSheet('name\nKim\nRobin\n');
  if (!list.ok) throw new Error(list.why);
  const line = (name: string, score: number): ClassRow => ({
    name,
    circuit: 'van',
    level: 3,
    seed: 7,
    outcome: 'named',
    score,
    minutes: 12,
    bestMinutes: 9,
    readings: 4,
    money: 60,
    unsafe: 1,
    hints: 2,
  });
  const sheet = [line('Robin', 80), line('Robin', 80), line('Robin', 61)].reduce(withLine, list.rows);
  expect(sheet.map((r) => [r.name, r.outcome, r.score])).toEqual([
    ['Kim', 'not yet', 0],
    ['Robin', 'named', 80],
    ['Robin', 'named', 61],
  ]);
  expect(byApprentice(sheet)).toEqual([
    { name: 'Kim', done: 0, score: 0, minutes: 0, bestMinutes: 0, unsafe: 0, hints: 0 },
    { name: 'Robin', done: 2, score: 71, minutes: 24, bestMinutes: 18, unsafe: 2, hints: 4 },
  ]);
  expect(readClassSheet(classSheetText(sheet))).toEqual({ ok: true, rows: sheet });
});

test('every level and every mark serves competences of the public lists, each with its source', () => {
  const ids = new Set(competences.map((c) => c.id));
  expect(levels.flatMap((l) => l.serves).filter((s) => !ids.has(s))).toEqual([]);
  for (const c of competences) {
    expect(c.sources.length, c.id).toBeGreaterThan(0);
    for (const s of c.sources) expect(s).toMatch(/https?:\/\//);
  }
  const graded = [...Object.values(gradedBy).flat(), ...gateOf];
  expect(graded.filter((g) => !ids.has(g))).toEqual([]);
  expect(new Set([...levels.flatMap((l) => l.serves), ...graded]).size).toBe(ids.size);
});
