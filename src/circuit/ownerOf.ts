/** The part, wire or connector that a terminal belongs to: `S1` of `S1.30`; empty for ground and block. */
export const ownerOf = (terminal: string): string => terminal.slice(0, Math.max(0, terminal.lastIndexOf('.')));
