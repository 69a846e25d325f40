import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';

/** A point where wires are joined for good: crimp, stud, soldered joint. Its joints fail with the wire that ends there. */
export const splice = definePart({
  kind: 'splice',
  title: 'splice',
  about: 'a joint of several wires; one terminal',
  letter: 'J',
  parameters: {},
  terminals: () => [{ name: '1' }],
  elements: () => [],
  poles: () => [],
  faults: () => [],
  access: () => accessOf(12, 'inside the harness'),
});
