import { expect, test } from 'vitest';
import { filament } from '../../src/circuit/laws.ts';
import type { Change, Part } from '../../src/circuit/part.ts';
import { natureOf } from '../../src/solve/draft.ts';
import { addedElements, ends, faultyElements, withParams } from '../../src/solve/faultyElements.ts';
import { network } from '../../src/solve/network.ts';
import { bench } from '../circuit/phraseCircuit.ts';
import { follows, madePart } from './exact/madeCircuit.ts';

const part = (id: string) => bench.parts.get(id)!;
const rest = { key: undefined, setting: '', engine: 'stopped', ambient: 20, state: {} } as const;
const elements = (id: string, ...changes: readonly Change[]) => faultyElements(part(id), changes)?.(rest);

test('only what touches an element makes others: figures, added ways and wires elsewhere leave them as they are', () => {
  const others: readonly Change[] = [
    { do: 'params', patch: { resistance: 5 } },
    { do: 'bridge', from: 'R1.1', to: 'ground', ohm: 1 },
    { do: 'attach', end: 1, terminal: 'R1.2' },
  ];
  expect(faultyElements(part('R1'), [])).toBeUndefined();
  expect(faultyElements(part('R1'), others)).toBeUndefined();
});

test('resistance in series adds up, open is no end of ohms, a fixed one is what it is', () => {
  const [sound] = part('R1').kind.elements(part('R1'), rest);
  const element = sound!.id;
  const ohms = (...changes: readonly Change[]) => elements('R1', ...changes)!.map((e) => ('ohm' in e ? e.ohm : undefined));
  expect(ohms({ do: 'series', element, ohm: 2 })).toEqual([3.5]);
  expect(ohms({ do: 'series', element, ohm: 2 }, { do: 'series', element, ohm: 1 })).toEqual([4.5]);
  expect(ohms({ do: 'series', element, ohm: Number.POSITIVE_INFINITY })).toEqual([Number.POSITIVE_INFINITY]);
  expect(ohms({ do: 'fix', element, ohm: 0.1 })).toEqual([0.1]);
  // Of another element it leaves this one alone.
  expect(ohms({ do: 'series', element: 'no such', ohm: 2 })).toEqual([1.5]);
});

test('what is added hangs under the name of its part; what draws a current is a law', () => {
  const added = addedElements(part('R1'), [
    { do: 'bridge', from: 'R1.1', to: 'ground', ohm: 20 },
    { do: 'params', patch: {} },
    { do: 'draw', from: 'R1.2', to: 'ground', ampere: 0.05 },
  ]);
  expect(added.map((e) => [e.id, ends(e), natureOf(e)])).toEqual([
    ['R1.~bridge0', ['R1.1', 'ground'], 'resistance'],
    ['R1.~draw2', ['R1.2', 'ground'], 'law'],
  ]);
  expect(natureOf({ id: '', plus: '+', minus: '-', volt: 12, ohm: 0 })).toBe('source');
  expect(natureOf({ id: '', into: 'a', outOf: 'b', ampere: 1 })).toBe('current');
  expect(ends({ id: '', plus: '+', minus: '-', volt: 12, ohm: 0 })).toEqual(['-', '+']);
});

test('figures of faults lie over those of the file, the last one on top; without any it is the very same part', () => {
  const r1 = part('R1');
  expect(withParams(r1, [])).toBe(r1);
  expect(withParams(r1, [{ do: 'bridge', from: 'R1.1', to: 'ground', ohm: 1 }])).toBe(r1);
  const patched = withParams(r1, [
    { do: 'params', patch: { resistance: 5 } },
    { do: 'params', patch: { resistance: 7 } },
  ]);
  expect([patched.params['resistance'], r1.params['resistance'], patched.id]).toEqual([7, 1.5, 'R1']);
});

test('an ideal current flows through any resistance, and through no open one; a law stays a law behind a resistance', () => {
  const steady = madePart('I1', () => [{ id: '', into: '1', outOf: '2', ampere: 2 }]);
  const law = follows('E1', filament(21, 12));
  const after = (of: Part, ohm: number) => faultyElements(of, [{ do: 'series', element: '', ohm }])!(rest);
  expect(after(steady, 5)).toEqual([{ id: '', into: '1', outOf: '2', ampere: 2 }]);
  expect(after(steady, Number.POSITIVE_INFINITY)).toEqual([{ id: '', into: '1', outOf: '2', ampere: 0 }]);
  expect(after(law, Number.POSITIVE_INFINITY)).toEqual([{ id: '', from: '1', to: '2', ohm: Number.POSITIVE_INFINITY }]);
  const [behind] = after(law, 2);
  // 12 V on the lamp and 1.75 A through 2 Ω more: by Ohm's law at 15.5 V the two together take what the lamp takes alone at 12 V.
  expect('law' in behind! && behind.law(12 + 2 * 1.75).ampere).toBeCloseTo(1.75, 6);
});

test('what a fault adds belongs to the part that has it, under a name of its own', () => {
  const { branches, branchOf } = network(bench, [{ part: 'R1', change: { do: 'bridge', from: 'R1.1', to: 'ground', ohm: 20 } }]);
  expect(branches[branchOf.get('R1.~bridge0')!]).toMatchObject({
    id: 'R1.~bridge0',
    part: 'R1',
    is: 'resistance',
    fromTerminal: 'R1.1',
    offset: 0,
  });
});
