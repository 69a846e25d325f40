import { readFileSync } from 'node:fs';

const kept = 'tests/mutation/explained.json';

/**
 * Changes that went unnoticed and that a person read and found to alter nothing that can be seen: the equivalent mutants, which a
 * mutation score leaves out (R. A. DeMillo, R. J. Lipton, F. G. Sayward, Computer 11 (1978) 34-41, from memory). Each is known by its
 * file, its line and the one above it, its column in the line, what stood there and what was put there; so it lapses when the line is
 * written anew.
 */
export function explained() {
  return JSON.parse(readFileSync(kept, 'utf8'));
}

const keyOf = ({ file, above, line, column, before, after }) => JSON.stringify([file, above, line, column, before, after]);

/** @param lines  of the file as it was when the changes were tried */
export function rowOf(file, lines, { at, before, after }) {
  const [row, column] = at.split(':').map(Number);
  const line = lines[row - 1];
  const lead = line.length - line.trimStart().length;
  return { file, above: (lines[row - 2] ?? '').trim(), line: line.trim(), column: column - lead, before, after };
}

/** Tells whether a change is among the explained ones. */
export function knownAs(changes) {
  const keys = new Set(changes.map(keyOf));
  return (row) => keys.has(keyOf(row));
}
