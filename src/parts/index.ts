import type { PartKind } from '../circuit/part.ts';

/** Every kind of part that Detent knows. A new kind is one new file and one line here. */
export const partKinds: readonly PartKind[] = [];
