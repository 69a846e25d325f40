import { levels } from './level.ts';

/** One finished exercise. Order of the list is order in time. */
export type Result = { readonly level: number; readonly circuit: string; readonly seed: number; readonly score: number };

/** A score from which an exercise counts as mastered (estimate). */
export const mastered = 70;
/** Below this twice in a row, one rung down. */
const lostAt = 40;
/** Every so many exercises an old rung is repeated. */
const repeatEvery = 4;

/** A rung is held when the last two exercises on it were mastered. */
export function isHeld(results: readonly Result[], level: number): boolean {
  const last = results.filter((r) => r.level === level).slice(-2);
  return last.length === 2 && last.every((r) => r.score >= mastered);
}

export type Next = { readonly level: number; readonly because: string };

/**
 * The next rung, at the edge of skill, by a plain rule: the lowest rung not yet held; one down after two exercises in a
 * row under 40 there; and every fourth exercise the held rung that was longest not practised, so that it stays.
 * Spacing repetitions out is common practice; the numbers are estimates. Whoever practises may choose another.
 *
 * @param has levels that the circuit can hold
 */
export function nextLevel(results: readonly Result[], has: readonly number[] = levels.map((l) => l.number)): Next {
  const open = has.filter((l) => !isHeld(results, l));
  const held = has.filter((l) => isHeld(results, l));
  if (held.length > 0 && (open.length === 0 || (results.length + 1) % repeatEvery === 0)) {
    const oldest = [...held].sort((a, b) => lastAt(results, a) - lastAt(results, b))[0]!;
    return {
      level: oldest,
      because:
        open.length === 0
          ? 'every level is held: this one was longest not practised'
          : 'every fourth exercise repeats a held level, the one longest not practised',
    };
  }
  const edge = open[0] ?? has[0] ?? 1;
  const last = results.filter((r) => r.level === edge).slice(-2);
  const below = has.filter((l) => l < edge).at(-1);
  if (below !== undefined && last.length === 2 && last.every((r) => r.score < lostAt))
    return { level: below, because: 'twice under 40 on the level above: one level down first' };
  return { level: edge, because: 'the lowest level not yet held; two exercises in a row with 70 points or more hold a level' };
}

/** How one level stands: what the last exercises on it scored, oldest first. */
export type Standing = { readonly level: number; readonly done: number; readonly last: readonly number[]; readonly held: boolean };

/** Scores shown of a level. */
const mostShown = 4;

/** Every level in turn, also those that were never tried. */
export const standings = (results: readonly Result[]): readonly Standing[] =>
  levels.map(({ number: level }) => {
    const own = results.filter((r) => r.level === level);
    return { level, done: own.length, last: own.slice(-mostShown).map((r) => r.score), held: isHeld(results, level) };
  });

/** Results with those of a file behind them that are not among them yet: the same file twice adds nothing. */
export function joinedResults(own: readonly Result[], brought: readonly Result[]): readonly Result[] {
  const key = (r: Result) => JSON.stringify([r.level, r.circuit, r.seed, r.score]);
  const there = new Map<string, number>();
  for (const r of own) there.set(key(r), (there.get(key(r)) ?? 0) + 1);
  const fresh = brought.filter((r) => {
    const left = there.get(key(r)) ?? 0;
    if (left > 0) there.set(key(r), left - 1);
    return left === 0;
  });
  return [...own, ...fresh];
}

const lastAt = (results: readonly Result[], level: number): number => results.map((r) => r.level).lastIndexOf(level);

/** Progress as a file; plain JSON, one line a result. */
export function progressText(results: readonly Result[]): string {
  return `{ "progress": 1, "results": [\n${results.map((r) => `  ${JSON.stringify(r)}`).join(',\n')}\n] }\n`;
}

/** The same form in the terminal and in the browser. Undefined when the text is no progress file. Entries that are none are left out. */
export function readProgress(text: string): readonly Result[] | undefined {
  let held: unknown;
  try {
    held = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (typeof held !== 'object' || held === null || !('results' in held) || !Array.isArray(held.results)) return undefined;
  return held.results.filter(isResult).map(({ level, circuit, seed, score }) => ({ level, circuit, seed, score }));
}

function isResult(x: unknown): x is Result {
  if (typeof x !== 'object' || x === null) return false;
  const r = x as Record<string, unknown>;
  const whole = (n: unknown): n is number => typeof n === 'number' && Number.isInteger(n);
  return (
    whole(r['level']) &&
    r['level'] >= 1 &&
    r['level'] <= 11 &&
    whole(r['seed']) &&
    typeof r['circuit'] === 'string' &&
    typeof r['score'] === 'number' &&
    r['score'] >= 0 &&
    r['score'] <= 100
  );
}
