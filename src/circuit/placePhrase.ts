import { BLOCK, type Circuit, GROUND } from './circuit.ts';
import { nearNames } from './nearNames.ts';
import type { Part } from './part.ts';
import { done, failed, type Piece, problemAt, sameName } from './phrasePiece.ts';
import type { Read } from './problem.ts';

/**
 * The part that a word means: its id, or the name that the file gives it. Capital and small letters count only where
 * they have to. Problem: unknown-part, ambiguous-part.
 */
export function partAt(piece: Piece, circuit: Circuit): Read<Part> {
  const id = sameName(piece.text, circuit.parts.keys());
  if (id !== undefined) return done(circuit.parts.get(id)!);
  const word = piece.text.toLowerCase();
  const named = [...circuit.parts.values()].filter((p) => p.name?.toLowerCase() === word);
  if (named.length === 1) return done(named[0]!);
  if (named.length > 0)
    return failed(
      problemAt(
        piece,
        'ambiguous-part',
        `\`${piece.text}\` names ${named.length} parts`,
        'Detent does not guess which one is meant',
        named.slice(0, 4).map((p) => p.id),
      ),
    );
  const pieces = piecesOf(piece.text, circuit);
  if (pieces.length > 0)
    return failed(
      problemAt(
        piece,
        'unknown-part',
        `wire ${pieces[0]!.slice(0, -1)} passes connectors, so it is in pieces here`,
        'each piece between two connectors can fail by itself',
        pieces.slice(0, 4),
      ),
    );
  const like = nearNames(piece.text, [...circuit.parts.keys(), ...names(circuit)]);
  const first = [...circuit.parts.keys()].find((id) => circuit.parts.get(id)!.kind.isWire !== true);
  return failed(
    problemAt(
      piece,
      'unknown-part',
      piece.text === '' ? 'the part is missing' : `the circuit has no part \`${piece.text}\``,
      'a phrase is about a part or wire of the circuit file',
      like.length > 0 ? like : [`say it by its id in the circuit file${first === undefined ? '' : `, such as ${first}`}`],
    ),
  );
}

/** `W7` of a file that the reader cut at connectors into W7a, W7b …; empty for any other word. */
export function piecesOf(word: string, circuit: Circuit): readonly string[] {
  const cut = [...circuit.parts.keys()].filter((id) => id.toLowerCase() === `${word.toLowerCase()}${id.at(-1)}` && /[a-z]$/.test(id));
  return cut.length > 1 && cut[0]!.endsWith('a') ? cut : [];
}

/**
 * A terminal: `S1.30`, `ground`, `block`, or a part alone where it has one terminal (`XE2`). Problem: unknown-terminal.
 */
export function terminalAt(piece: Piece, circuit: Circuit): Read<string> {
  const common = sameName(piece.text, [GROUND, BLOCK]);
  if (common !== undefined) return done(common);
  const known = terminalsOf(circuit);
  const same = sameName(piece.text, known);
  if (same !== undefined) return done(same);
  const id = sameName(piece.text, circuit.parts.keys());
  const own = id === undefined ? [] : known.filter((t) => t.startsWith(`${id}.`));
  if (own.length === 1) return done(own[0]!);
  const dot = piece.text.indexOf('.');
  const owner = dot < 0 ? undefined : sameName(piece.text.slice(0, dot), circuit.parts.keys());
  const siblings = owner === undefined ? [] : known.filter((t) => t.startsWith(`${owner}.`));
  const what =
    piece.text === ''
      ? 'the terminal is missing'
      : own.length > 1
        ? `${id} has ${own.length} terminals`
        : owner === undefined
          ? `the circuit has no terminal \`${piece.text}\``
          : `${owner} has no terminal \`${piece.text.slice(dot + 1)}\``;
  const like = nearNames(piece.text, known);
  const close = like.length > 0 ? like : known.slice(0, 1).map((t) => `written like \`${t}\``);
  const mend =
    own.length > 1 ? own.slice(0, 4) : siblings.length > 0 ? (siblings.length > 4 ? near(piece.text, siblings) : siblings) : close;
  return failed(problemAt(piece, 'unknown-terminal', what, 'a lead or a jumper goes on one terminal, written PART.TERMINAL', mend));
}

const terminals = new WeakMap<Circuit, readonly string[]>();

/** Every terminal of every part and wire, as written. */
export function terminalsOf(circuit: Circuit): readonly string[] {
  const before = terminals.get(circuit);
  if (before) return before;
  const list = [...circuit.parts.values()].flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`));
  terminals.set(circuit, list);
  return list;
}

function near(word: string, all: readonly string[]): readonly string[] {
  const close = nearNames(word, all);
  return close.length > 0 ? close : all.slice(0, 4);
}

function names(circuit: Circuit): readonly string[] {
  return [...circuit.parts.values()].flatMap((p) => (p.name === undefined ? [] : [p.name]));
}
