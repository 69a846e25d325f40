import type { Circuit } from '../circuit/circuit.ts';
import type { Fault } from '../faults/fault.ts';
import { type CellVerdict, engineRow, type PositionTable } from '../solve/positionTable.ts';
import { Chance, mixedSeed } from './chance.ts';
import { hiddenFaults, tableWith } from './hidden.ts';

/** One cell asked for. */
export type Question = {
  readonly load: string;
  readonly name: string;
  readonly position: string;
  /** What may be answered. */
  readonly choices: readonly CellVerdict[];
  readonly answer: CellVerdict;
};

/** Ten cells of the position table: of the healthy vehicle (level 1), or with a fault that is told (level 2). */
export type TableExercise = {
  readonly level: 1 | 2;
  readonly seed: number;
  readonly given: readonly Fault[];
  readonly questions: readonly Question[];
};

const asked = 10;
const loadChoices: readonly CellVerdict[] = ['works', 'weak', 'dead'];
const engineChoices: readonly CellVerdict[] = ['cranks', 'runs', 'still'];

/** The same circuit, level and seed always ask the same. Half of the cells of level 2 are ones that the fault changes, as far as it changes so many. */
export function tableExercise(circuit: Circuit, level: 1 | 2, seed: number): TableExercise {
  const chance = new Chance(mixedSeed('table', circuit.title, level, seed));
  const { table, given } = level === 1 ? { table: tableWith(circuit, []), given: [] } : withVisibleFault(circuit, chance);
  const cells = table.rows.flatMap((row) => row.cells.map((cell) => ({ row, cell })));
  const open = cells.filter(({ cell }) => cell.verdict !== 'chatters' && !cell.sometimes);
  const changed = chance.shuffled(open.filter(({ cell }) => cell.changed)).slice(0, asked / 2);
  const live = chance.shuffled(open.filter(({ cell }) => !cell.changed && cell.verdict !== 'dead' && cell.verdict !== 'still'));
  const off = chance.shuffled(open.filter(({ cell }) => !cell.changed && (cell.verdict === 'dead' || cell.verdict === 'still')));
  const rest = live.slice(0, Math.ceil((asked - changed.length) / 2));
  const chosen = [...changed, ...rest, ...off].slice(0, asked);
  const questions = chance.shuffled(chosen).map(({ row, cell }): Question => {
    return {
      load: row.id,
      name: row.name,
      position: cell.position,
      choices: row.id === engineRow ? engineChoices : loadChoices,
      answer: cell.verdict,
    };
  });
  return { level, seed, given, questions };
}

function withVisibleFault(circuit: Circuit, chance: Chance): { readonly table: PositionTable; readonly given: readonly Fault[] } {
  let tries = 0;
  for (const given of hiddenFaults(circuit, 2, chance)) {
    const table = tableWith(circuit, given);
    if (table.rows.some((r) => r.cells.some((c) => c.changed))) return { table, given };
    if (++tries > 40) break;
  }
  return { table: tableWith(circuit, []), given: [] };
}

/** Right answers out of a hundred. */
export const tableScore = ({ questions }: TableExercise, answers: readonly string[]): number =>
  questions.length === 0 ? 0 : Math.round((100 * questions.filter((q, k) => answers[k] === q.answer).length) / questions.length);
