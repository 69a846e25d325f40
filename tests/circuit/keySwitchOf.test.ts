import { describe, expect, test } from 'vitest';
import { keySwitchOf, keyTakenOut, restKey } from '../../src/circuit/keySwitchOf.ts';
import type { KeyModel } from '../../src/circuit/part.ts';
import { bench, keyless, library } from './phraseCircuit.ts';

describe('the key', () => {
  const position = (name: string, angle: number, keyOut: boolean) => ({ name, angle, keyOut });
  const model = (positions: readonly object[], contacts: readonly object[] = []): KeyModel =>
    ({ positions, contacts }) as unknown as KeyModel;
  test('of the library stands at its first position, and comes out where fewest contacts are closed', () => {
    const { model: van } = keySwitchOf(library('light-van'))!;
    expect(restKey(van)).toEqual({ angle: 0, came: 'up', in: true });
    expect(keyTakenOut(van)).toEqual({ angle: 0, came: 'back', in: false });
    expect(keySwitchOf(keyless)).toBeUndefined();
    expect(keySwitchOf(keyless)).toBeUndefined();
    expect(keySwitchOf(bench)?.part.id).toBe('S1');
  });
  test('that nothing lets go is taken out at the first position, wherever that is', () => {
    expect(keyTakenOut(model([position('A', 20, false), position('B', 50, false)]))).toEqual({ angle: 20, came: 'back', in: false });
    expect(restKey(model([position('A', 20, false)]))).toEqual({ angle: 20, came: 'up', in: true });
    expect([restKey(model([])).angle, keyTakenOut(model([])).angle]).toEqual([0, 0]);
  });
});
