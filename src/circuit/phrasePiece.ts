import type { Problem } from './problem.ts';
import { saidShort } from './quotedShort.ts';

/** A stretch of a phrase and where it begins, so that a problem can point at it. */
export type Piece = {
  readonly text: string;
  /** 1-based, in UTF-16 units. */
  readonly column: number;
  /** As the problem will name it: a file, or the option that the phrase came from. */
  readonly file: string;
  /** 1 for a phrase; the line in a job file otherwise. */
  readonly line: number;
};

export function pieceOf(text: string, file: string, column = 1, line = 1): Piece {
  return trimmed({ text, column, file, line });
}

/** Without the white space around it; the column moves along. */
export function trimmed(piece: Piece): Piece {
  const start = piece.text.length - piece.text.trimStart().length;
  return { ...piece, text: piece.text.trim(), column: piece.column + start };
}

/** The part of a piece from `from` to `to` (indices into its text), trimmed. */
export function part(piece: Piece, from: number, to = piece.text.length): Piece {
  return trimmed({ ...piece, text: piece.text.slice(from, to), column: piece.column + from });
}

/**
 * Cut at commas. A comma between two digits stays: it is a decimal comma, and the reading of the quantity says how to
 * write it.
 */
export function listed(piece: Piece): readonly Piece[] {
  const cuts = [...piece.text.matchAll(/(?<!\d),|,(?!\d)/g)].map((m) => m.index);
  return [...cuts, piece.text.length].map((end, k) => part(piece, k === 0 ? 0 : cuts[k - 1]! + 1, end));
}

/** An error at a piece. */
export function problemAt(piece: Piece, code: string, what: string, why: string, mend: readonly string[]): Problem {
  const { file, line, column } = piece;
  return saidShort({ code, severity: 'error', file, line, column, length: Math.max(1, piece.text.length), what, why, mend });
}

export const failed = (...problems: readonly Problem[]) => ({ ok: false, problems }) as const;
export const done = <T>(value: T) => ({ ok: true, value, problems: [] as readonly Problem[] }) as const;

/** The one name that is the word, letter by letter or else in another case; undefined when none or several are. */
export function sameName(word: string, names: Iterable<string>): string | undefined {
  const list = [...names];
  if (list.includes(word)) return word;
  const loose = list.filter((n) => n.toLowerCase() === word.toLowerCase());
  return loose.length === 1 ? loose[0] : undefined;
}
