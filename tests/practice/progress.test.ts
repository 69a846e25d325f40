import { expect, test } from 'vitest';
import { classSheetText, readClassSheet } from '../../src/practice/classSheet.ts';
import { competences } from '../../src/practice/competence.ts';
import { levels } from '../../src/practice/level.ts';
import { isHeld, nextLevel, progressText, type Result, readProgress } from '../../src/practice/progress.ts';

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
  expect(readClassSheet('a,b\n')).toMatchObject({ ok: false });
});

test('every level serves competences of the public lists, each with its source', () => {
  const ids = new Set(competences.map((c) => c.id));
  expect(levels.flatMap((l) => l.serves).filter((s) => !ids.has(s))).toEqual([]);
  for (const c of competences) for (const s of c.sources) expect(s).toMatch(/https?:\/\//);
  expect(new Set(levels.flatMap((l) => l.serves)).size).toBe(ids.size);
});
