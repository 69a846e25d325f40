export type Tried = { readonly status?: string; readonly by?: { readonly test: string }; readonly how?: string };
export declare function isBrokenOff(m: Tried): boolean;
export declare function countOf(mutants: readonly Tried[]): { readonly killed: number; readonly survived: number; readonly broken: number };
export declare function apart(broken: number): string;
export declare function likely(sum: { readonly killed: number; readonly survived: number; readonly all: number }): string;
export declare function isDrawn(
  file: string,
  change: { readonly at: string; readonly kind: string; readonly after: string },
  share: number,
  draw?: string,
): boolean;
export declare function isUnnoticed(m: Tried): boolean;
export declare function percent(killed: number, survived: number): string;
export declare function seen(sum: {
  readonly killed: number;
  readonly survived: number;
  readonly explained: number;
  readonly all: number;
}): string;
