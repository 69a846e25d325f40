export type Explained = {
  readonly file: string;
  readonly above: string;
  readonly line: string;
  readonly column: number;
  readonly before: string;
  readonly after: string;
  readonly why: string;
};
type Row = Omit<Explained, 'why'>;
export declare function explained(): { readonly whys: Readonly<Record<string, string>>; readonly changes: readonly Explained[] };
export declare function rowOf(
  file: string,
  lines: readonly string[],
  change: { readonly at: string; readonly before: string; readonly after: string },
): Row;
export declare function knownAs(changes: readonly Row[]): (row: Row) => boolean;
