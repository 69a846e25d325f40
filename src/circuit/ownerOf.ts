import { BLOCK, GROUND } from './circuit.ts';

/** The part, wire or connector that a terminal belongs to: `S1` of `S1.30`; empty for ground and block. */
export const ownerOf = (terminal: string): string => terminal.slice(0, Math.max(0, terminal.lastIndexOf('.')));

/** The name in the whole circuit of what a part calls by its own: `S1.30` for `30` of `S1`; ground and block are everybody's. */
export const nameOfOwn = (part: string, own: string): string => (own === GROUND || own === BLOCK ? own : `${part}.${own}`);
