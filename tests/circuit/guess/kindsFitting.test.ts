import { expect, test } from 'vitest';
import { kindsFitting } from '../../../src/circuit/guess/kindsFitting.ts';
import { partKinds } from '../../../src/parts/index.ts';

test('kinds that an unknown part may be: by its letter and its terminals, those with fewest besides first', () => {
  const kinds = [...partKinds.values()];
  const fits = (id: string, ...terminals: readonly string[]) => kindsFitting(id, terminals, kinds);
  expect(fits('F9', '1', '2')[0]).toBe('fuse');
  expect(fits('H9', '1', '2')).toContain('lamp');
  expect(fits('E9', '1', '2')).toContain('lamp');
  expect(fits('e9', '1', '2')).toContain('lamp');
  expect(fits('Q9', '1', '2')).toEqual([]);
  expect(fits('Q9', '30', '85', '86', '87')).toContain('relay');
  expect(fits('K9', '30', '85', '86', '87')[0]).toBe('relay');
  expect(fits('F9', 'nowhere')).toEqual([]);
  expect(kindsFitting('E9', ['1', '2'], kinds, 1)).toHaveLength(1);
  for (const list of [fits('F9', '1', '2'), fits('9', '1', '2')]) expect(list).not.toContain('wire');
});
