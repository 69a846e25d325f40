/**
 * Something in a file or a phrase that keeps Detent from answering truly. Plain data: `src/report` turns it into
 * text, the web view renders the same fields. `what` is a fact that stands alone, `why` is what it costs the
 * technician, each `mend` is one action or one near name.
 */
export type Problem = {
  /** Stable, kebab-case; heads a paragraph in DEVELOPERS.md. */
  readonly code: string;
  readonly severity: 'error' | 'warning';
  /** File name as the caller gave it; for a phrase the option or field it came from, such as `--fault`. */
  readonly file: string;
  /** 1-based; 1 for a phrase. */
  readonly line: number;
  /** 1-based, in UTF-16 units. */
  readonly column: number;
  /** How many characters the place covers, at least 1. */
  readonly length: number;
  readonly what: string;
  readonly why: string;
  readonly mend: readonly string[];
};

/** What reading gives: a value when no problem is an error, and always the problems. */
export type Read<T> =
  | { readonly ok: true; readonly value: T; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };
