export type Tried = { readonly status?: string; readonly by?: { readonly test: string }; readonly how?: string };
export declare function isBrokenOff(m: Tried): boolean;
export declare function countOf(mutants: readonly Tried[]): { readonly killed: number; readonly survived: number; readonly broken: number };
export declare function apart(broken: number): string;
