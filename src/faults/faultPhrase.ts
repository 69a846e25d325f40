import type { Circuit } from '../circuit/circuit.ts';
import { done, failed, type Piece, part as pieceFrom, pieceOf, problemAt, sameName } from '../circuit/phrasePiece.ts';
import { partAt, terminalAt } from '../circuit/placePhrase.ts';
import type { Read } from '../circuit/problem.ts';
import { quantityText, readQuantity } from '../circuit/quantity.ts';
import { type Fault, faultOf } from './fault.ts';
import { faultModes, faultsBySubject, type PartFault } from './faultModes.ts';
import { nearFaults } from './nearFaults.ts';
import { wrongTerminal } from './wrongTerminal.ts';

/** Why no phrase is ever taken for a like one. */
export const whyExact = 'a fault is put in exactly as said, so Detent does not guess it';
const whyFigure = 'how bad it is decides what is seen';

/**
 * Reads a fault: `PART MODE [figure]`, as `faultsOf` lists them: `F3 blown`, `W7 0.8 Ω`, `S1.30-15 open at ON`,
 * `S1.30-50 comes and goes 40 %`; besides, a wire's end on any terminal: `W9.2 on R1.1`. The part may be called by the
 * name that the file gives it.
 *
 * Problems: unknown-part, unknown-fault, fault-figure, unknown-terminal.
 */
export function readFault(phrase: string, circuit: Circuit, file = '--fault', line = 1): Read<Fault> {
  const piece = pieceOf(phrase.replaceAll(/\s/g, ' '), file, 1, line);
  const modes = faultModes(circuit);
  if (piece.text === '')
    return failed(
      problemAt(
        piece,
        'unknown-fault',
        'the fault is missing',
        whyExact,
        modes.slice(0, 4).map((f) => faultOf(f.part, f.mode).phrase),
      ),
    );
  const subjects = faultsBySubject(circuit);
  const first = /^\S*/.exec(piece.text)![0];
  let subject = pieceFrom(piece, 0, first.length);
  let name = nameIn(first, subjects) ?? turned(first, subjects);
  const called = name === undefined ? partCalled(piece.text, circuit) : undefined;
  if (called) {
    subject = pieceFrom(piece, 0, called.length);
    name = subjects.has(called.id) ? called.id : undefined;
  }
  const rest = pieceFrom(piece, subject.text.length);
  if (/^on\s/i.test(rest.text) && !called && movesAnEnd(first, pieceFrom(rest, 2), circuit))
    return wrongTerminal(subject, pieceFrom(rest, 2), circuit);
  if (name === undefined) return unknownSubject(piece, subject, rest, called?.id, circuit);
  return modeAt(piece, rest, name, subjects.get(name)!, modes);
}

/** Whether `X on Y` is about a wire's end: X is one, or Y at least a terminal. `S1 on fire` is neither, and S1 has faults of its own. */
function movesAnEnd(subject: string, on: Piece, circuit: Circuit): boolean {
  if (terminalAt(on, circuit).ok) return true;
  const end = /^(.+)\.[12]$/.exec(subject);
  const id = end ? sameName(end[1]!, circuit.parts.keys()) : undefined;
  return id !== undefined && circuit.parts.get(id)!.kind.isWire === true;
}

function modeAt(piece: Piece, rest: Piece, name: string, own: readonly PartFault[], modes: readonly PartFault[]): Read<Fault> {
  const words = rest.text.toLowerCase().replaceAll(/\s+/g, ' ');
  const fits = own
    .filter(({ mode }) => mode.words === '' || words === mode.words.toLowerCase() || words.startsWith(`${mode.words.toLowerCase()} `))
    .sort((a, b) => b.mode.words.length - a.mode.words.length);
  const exact = fits.find(({ mode }) => mode.detail === undefined && words === mode.words.toLowerCase());
  if (exact) return done(faultOf(exact.part, exact.mode));
  let wrong: Read<Fault> | undefined;
  for (const { part, mode } of fits) {
    const figure = afterWords(rest, mode.words);
    if (mode.detail === undefined || (!looksLikeFigure(figure) && (mode.words === '' || figure.text !== ''))) continue;
    const detail = detailAt(figure, piece, { part, mode });
    if (detail.ok) return done(faultOf(part, mode, detail.value));
    wrong ??= detail;
  }
  return wrong ?? failed(unknownMode(piece, rest, name, words, fits, modes));
}

const looksLikeFigure = ({ text }: Piece): boolean => /^[-+.\d]/.test(text);

function unknownMode(piece: Piece, rest: Piece, name: string, words: string, fits: readonly PartFault[], modes: readonly PartFault[]) {
  const own = modes.filter((f) => f.mode.subject === name);
  const siblings = modes.filter((f) => f.part === own[0]!.part);
  const isPiece = siblings.some((f) => f.mode.subject !== name && f.mode.words !== '' && words.startsWith(f.mode.words.toLowerCase()));
  const plain = fits.find(({ mode }) => mode.words !== '');
  const tell = (at: Piece, what: string) =>
    problemAt(at, 'unknown-fault', what, whyExact, nearFaults(words, isPiece && !plain ? siblings : own));
  if (plain) {
    const extra = afterWords(rest, plain.mode.words);
    const known = `\`${name} ${plain.mode.words}\``;
    return tell(extra, looksLikeFigure(extra) ? `${known} takes no figure` : `\`${extra.text}\` says nothing about ${known}`);
  }
  if (rest.text === '') return tell(piece, `\`${name}\` alone does not say what is wrong with it`);
  return tell(
    rest,
    isPiece ? `${name} has several pieces, and \`${piece.text}\` does not say which` : `\`${rest.text}\` is no fault of ${name}`,
  );
}

/** What is left of a piece after the words of a mode, however they are spaced. */
function afterWords(rest: Piece, words: string): Piece {
  let at = 0;
  for (const word of words.split(' ').filter((w) => w !== '')) at = rest.text.toLowerCase().indexOf(word.toLowerCase(), at) + word.length;
  return pieceFrom(rest, at);
}

const nameIn = (name: string, subjects: ReadonlyMap<string, unknown>) => (subjects.has(name) ? name : sameName(name, subjects.keys()));

/** `S1.15-30` for `S1.30-15`: a contact is named from either side. */
function turned(subject: string, subjects: ReadonlyMap<string, unknown>): string | undefined {
  const pair = /^([^.]+)\.([^-]+)-([^-]+)$/.exec(subject);
  return pair ? nameIn(`${pair[1]}.${pair[3]}-${pair[2]}`, subjects) : undefined;
}

/** The one part whose name begins a phrase; the longest name where one begins another. */
function partCalled(text: string, circuit: Circuit): { readonly id: string; readonly length: number } | undefined {
  const low = `${text.toLowerCase()} `;
  const called = [...circuit.parts.values()].filter((p) => p.name !== undefined && low.startsWith(`${p.name.toLowerCase()} `));
  const length = Math.max(0, ...called.map((p) => p.name!.length));
  const longest = called.filter((p) => p.name!.length === length);
  return longest.length === 1 ? { id: longest[0]!.id, length } : undefined;
}

function detailAt(figure: Piece, whole: Piece, { part, mode }: PartFault): Read<number> {
  const { dimension, min, max, optional } = mode.detail!;
  const phraseFor = (amount?: number) => faultOf(part, mode, amount).phrase;
  if (figure.text === '') {
    if (optional) return done(mode.detail!.default);
    return failed(problemAt(whole, 'fault-figure', `\`${whole.text}\` needs a figure behind it`, whyFigure, [phraseFor()]));
  }
  const read = readQuantity(figure.text, dimension);
  if (!read.ok) {
    // A comma is the one slip whose meaning is plain enough to write the whole phrase anew.
    const pointed = readQuantity(figure.text.replace(',', '.'), dimension);
    const mend = read.code === 'decimal-comma' && pointed.ok ? [phraseFor(pointed.value)] : [phraseFor(), ...read.mend.slice(0, 1)];
    return failed(problemAt(figure, 'fault-figure', read.why, whyFigure, mend));
  }
  if (read.value >= min && read.value <= max) return done(read.value);
  const range = `${quantityText(min, dimension)} to ${quantityText(max, dimension)}`;
  const nearest = phraseFor(Math.min(max, Math.max(min, read.value)));
  return failed(
    problemAt(
      figure,
      'fault-figure',
      `${quantityText(read.value, dimension)} is outside ${range}`,
      'beyond it the fault would be another',
      [nearest],
    ),
  );
}

function unknownSubject(piece: Piece, subject: Piece, rest: Piece, called: string | undefined, circuit: Circuit): Read<Fault> {
  const modes = faultModes(circuit);
  const words = rest.text.toLowerCase();
  const dot = called === undefined ? subject.text.indexOf('.') : -1;
  const owner = called === undefined ? partAt(pieceFrom(subject, 0, dot < 0 ? undefined : dot), circuit) : done(circuit.parts.get(called)!);
  const ofPart = (id: string) => modes.filter((f) => f.part === id);
  if (!owner.ok) {
    const like = owner.problems[0]!.mend.flatMap((id) => nearFaults(words, ofPart(id)).slice(0, 1));
    return failed(...owner.problems.map((p) => ({ ...p, mend: like.length > 0 ? like : [listCommand] })));
  }
  const { id, name, kind } = owner.value;
  const own = ofPart(id);
  if (own.length > 0) {
    const what =
      dot < 0
        ? `${subject.text} has several pieces, and \`${piece.text}\` does not say which`
        : `${id} has no piece \`${subject.text.slice(dot + 1)}\` that can fail`;
    const there = own.filter(
      (f) =>
        dot >= 0 &&
        f.mode.subject
          .slice(dot + 1)
          .split('-')
          .includes(subject.text.slice(dot + 1)),
    );
    return failed(problemAt(subject, 'unknown-fault', what, whyExact, nearFaults(words, there.length > 0 ? there : own)));
  }
  const ending = circuit.attached.filter(([, at]) => at.startsWith(`${id}.`)).map(([end]) => end.slice(0, end.lastIndexOf('.')));
  const mend = [...new Set(ending)].slice(0, 4).flatMap((wire) => nearFaults(words, ofPart(wire)).slice(0, 1));
  const what = `${id} (${name ?? kind.title}) has no fault of its own; its joints fail with the wires that end there`;
  return failed(problemAt(subject, 'unknown-fault', what, whyExact, mend.length > 0 ? mend : [listCommand]));
}

const listCommand = 'every fault that fits: `detent faults FILE`';
