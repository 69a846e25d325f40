import { describe, expect, test } from 'vitest';
import { checkId, isIdForm } from '../../src/circuit/ids.ts';

describe('ids', () => {
  const told = (id: string): readonly string[] => {
    const codes: string[] = [];
    const holds = checkId(id, { start: 0, end: 1 } as never, (_at, problem) => {
      codes.push(problem.code);
      expect(problem.mend).toHaveLength(1);
    });
    expect(holds).toBe(codes.length === 0);
    return codes;
  };
  test.each(['F3', 'S1/15-R1/1', "X2'", 'Ü1', '1a', 'a'.repeat(60)])('%s can be one', (id) => {
    expect(told(id)).toEqual([]);
    expect(isIdForm(id)).toBe(true);
  });
  test.each(['', 'a b', '-a', '_a', 'a.b', 'a'.repeat(61), 'a!'])('%j cannot', (id) => {
    expect(told(id)).toEqual(['id-form']);
  });
  test.each(['ground', 'block', 'engine', 'key', 'jumper', 'between', 'after', 'release', 'off', 'on'])('`%s` is taken', (id) => {
    expect(told(id)).toEqual(['id-taken']);
  });
});
