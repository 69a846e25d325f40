import { expect, test } from 'vitest';
import { Predictor } from '../../src/diagnose/predict.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { positionTableText } from '../../src/report/positionTableText.ts';
import { positionTable } from '../../src/solve/positionTable.ts';
import { sound } from '../circuit/phraseCircuit.ts';
import { libraryCircuit, saw } from '../diagnose/library.ts';

const saloon = libraryCircuit('saloon');
const fault = sound(readFault('W10a 1.2 Ω', saloon));

test('a relay that buzzes on a weak feed is named under the table, though every load stands still', () => {
  const table = positionTable(saloon, [{ share: 1, changes: changesOf([fault]) }]);
  expect(table.chatters.find((c) => c.part === 'K4')?.positions).toEqual(['START']);
  expect(positionTableText(saloon.title, [fault.phrase], table)).toMatch(/K4 never settles in START/);
  expect(positionTable(saloon, [{ share: 1, changes: [] }]).chatters).toEqual([]);
});

test('a meter on what chatters is expected to show either side of the swing', () => {
  const [asked] = saw(saloon, 'START: 1 V at K4.87');
  const said = new Predictor(saloon).expected([fault], asked!);
  expect(said.map((s) => s.share)).toEqual([0.5, 0.5]);
  const volts = said.map(({ is }) => (is.of === 'volts' ? (is.volt ?? 0) : Number.NaN));
  expect(Math.abs(volts[0]! - volts[1]!)).toBeGreaterThan(1);
});
