import type { Circuit } from '../circuit/circuit.ts';
import { nearNames } from '../circuit/nearNames.ts';
import { done, failed, type Piece, part as pieceFrom, pieceOf, problemAt, sameName } from '../circuit/phrasePiece.ts';
import { partAt, piecesOf, terminalAt } from '../circuit/placePhrase.ts';
import type { Read } from '../circuit/problem.ts';
import { quantityText, readQuantity } from '../circuit/quantity.ts';
import { attachFault } from '../parts/wire.ts';
import { type Fault, faultOf } from './fault.ts';
import { faultModes, type PartFault } from './faultModes.ts';

const why = 'a fault is put in exactly as said, so Detent does not guess it';

/**
 * Reads a fault: `PART MODE [figure]`, as `faultsOf` lists them: `F3 blown`, `W7 0.8 Ω`, `S1.30-15 open at ON`,
 * `S1.30-50 comes and goes 40 %`; besides, a wire's end on any terminal: `W9.2 on R1.1`.
 *
 * Problems: unknown-part, unknown-fault, fault-figure, unknown-terminal.
 */
export function readFault(phrase: string, circuit: Circuit, file = '--fault', line = 1): Read<Fault> {
  const piece = pieceOf(phrase.replaceAll(/\s/g, ' '), file, 1, line);
  const first = /^\S*/.exec(piece.text)![0];
  const subject = pieceFrom(piece, 0, first.length);
  const rest = pieceFrom(piece, first.length);
  if (piece.text === '') return failed(problemAt(piece, 'unknown-fault', 'the fault is missing', why, examples(circuit)));
  if (/^on\s/i.test(rest.text)) return wrongTerminal(piece, subject, pieceFrom(rest, 2), circuit);
  const modes = faultModes(circuit);
  const name = sameName(subject.text, new Set(modes.map((f) => f.mode.subject))) ?? turned(subject.text, modes);
  if (name === undefined) return unknownSubject(piece, subject, rest, circuit);
  const own = modes.filter((f) => f.mode.subject === name);
  const words = rest.text.toLowerCase().replaceAll(/\s+/g, ' ');
  const fits = own
    .filter(({ mode }) => mode.words === '' || words === mode.words.toLowerCase() || words.startsWith(`${mode.words.toLowerCase()} `))
    .sort((a, b) => b.mode.words.length - a.mode.words.length);
  const exact = fits.find(({ mode }) => mode.detail === undefined && words === mode.words.toLowerCase());
  if (exact) return done(faultOf(exact.part, exact.mode));
  for (const { part, mode } of fits) {
    if (mode.detail === undefined) continue;
    const figure = afterWords(rest, mode.words);
    if (mode.words === '' && !/^[-+.\d]/.test(figure.text)) continue;
    const detail = detailAt(figure, piece, { part, mode });
    return detail.ok ? done(faultOf(part, mode, detail.value)) : detail;
  }
  const plain = fits.find(({ mode }) => mode.detail === undefined && mode.words !== '');
  const extra = plain && afterWords(rest, plain.mode.words);
  const what =
    extra === undefined
      ? rest.text === ''
        ? `\`${name}\` alone does not say what is wrong with it`
        : `\`${rest.text}\` is no fault of ${name}`
      : /^[-+.\d]/.test(extra.text)
        ? `\`${name} ${plain!.mode.words}\` takes no figure`
        : `\`${extra.text}\` says nothing about \`${name} ${plain!.mode.words}\``;
  return failed(problemAt(rest.text === '' ? piece : (extra ?? rest), 'unknown-fault', what, why, near(piece.text, words, own, modes)));
}

/** What is left of a piece after the words of a mode, however they are spaced. */
function afterWords(rest: Piece, words: string): Piece {
  let at = 0;
  for (const word of words.split(' ').filter((w) => w !== '')) at = rest.text.toLowerCase().indexOf(word.toLowerCase(), at) + word.length;
  return pieceFrom(rest, at);
}

/** `S1.15-30` for `S1.30-15`: a contact is named from either side. */
function turned(subject: string, modes: readonly PartFault[]): string | undefined {
  const pair = /^([^.]+)\.([^-]+)-([^-]+)$/.exec(subject);
  return pair ? sameName(`${pair[1]}.${pair[3]}-${pair[2]}`, new Set(modes.map((f) => f.mode.subject))) : undefined;
}

function detailAt(figure: Piece, whole: Piece, { part, mode }: PartFault): Read<number> {
  const { dimension, min, max, optional } = mode.detail!;
  const usual = faultOf(part, mode).phrase;
  if (figure.text === '') {
    if (optional) return done(mode.detail!.default);
    return failed(
      problemAt(whole, 'fault-figure', `\`${whole.text}\` needs a figure behind it`, `how bad it is decides what is seen`, [usual]),
    );
  }
  const read = readQuantity(figure.text, dimension);
  if (!read.ok)
    return failed(problemAt(figure, 'fault-figure', read.why, 'how bad it is decides what is seen', [usual, ...read.mend].slice(0, 4)));
  if (read.value >= min && read.value <= max) return done(read.value);
  const range = `${quantityText(min, dimension)} to ${quantityText(max, dimension)}`;
  const nearest = faultOf(part, mode, Math.min(max, Math.max(min, read.value))).phrase;
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

function wrongTerminal(piece: Piece, subject: Piece, on: Piece, circuit: Circuit): Read<Fault> {
  const dot = subject.text.lastIndexOf('.');
  const [owner, end] = [subject.text.slice(0, dot), subject.text.slice(dot + 1)];
  const id = dot < 0 ? sameName(subject.text, circuit.parts.keys()) : sameName(owner, circuit.parts.keys());
  const wire = id === undefined ? undefined : circuit.parts.get(id);
  const known = (mends: readonly string[], what: string) =>
    failed(problemAt(subject, 'unknown-fault', what, 'a wire end is named by the wire and 1 or 2, as `from` and `to` in the file', mends));
  const cut = piecesOf(dot < 0 ? subject.text : owner, circuit);
  if (!wire && cut.length > 0)
    return known(
      [`${cut[0]}.1 on ${on.text}`, `${cut.at(-1)}.2 on ${on.text}`],
      `wire ${owner || subject.text} passes connectors, so it is in pieces here`,
    );
  if (!wire) return partAt(pieceFrom(subject, 0, dot < 0 ? undefined : dot), circuit) as Read<never>;
  if (wire.kind.isWire !== true)
    return known(near(piece.text, '', faultModes(circuit), []), `${wire.id} is no wire; only a wire's end can be on another terminal`);
  if (dot < 0 || (end !== '1' && end !== '2'))
    return known(
      [`${wire.id}.1 on ${on.text}`, `${wire.id}.2 on ${on.text}`],
      `\`${subject.text}\` does not say which end of wire ${wire.id}`,
    );
  const terminal = terminalAt(on, circuit);
  if (!terminal.ok) return terminal;
  const healthy = circuit.attached.find(([own]) => own === `${wire.id}.${end}`)?.[1];
  if (terminal.value === healthy || terminal.value.startsWith(`${wire.id}.`))
    return failed(
      problemAt(
        on,
        'unknown-fault',
        terminal.value === healthy ? `${subject.text} belongs on ${terminal.value}` : `${terminal.value} is an end of the same wire`,
        why,
        [],
      ),
    );
  const listed = faultModes(circuit).find((f) => f.mode.subject === `${wire.id}.${end}` && f.mode.words === `on ${terminal.value}`);
  return done(faultOf(wire.id, listed?.mode ?? attachFault(wire.id, end === '1' ? 1 : 2, terminal.value)));
}

function unknownSubject(piece: Piece, subject: Piece, rest: Piece, circuit: Circuit): Read<Fault> {
  const modes = faultModes(circuit);
  const words = rest.text.toLowerCase();
  const dot = subject.text.indexOf('.');
  const owner = partAt(pieceFrom(subject, 0, dot < 0 ? undefined : dot), circuit);
  if (!owner.ok) {
    const like = owner.problems[0]!.mend.flatMap((id) =>
      near(
        `${id} ${rest.text}`,
        words,
        modes.filter((f) => f.part === id),
        [],
      ).slice(0, 1),
    );
    return failed(...owner.problems.map((p) => ({ ...p, mend: like.length > 0 ? like : near(piece.text, words, [], modes) })));
  }
  const own = modes.filter((f) => f.part === owner.value.id);
  const what =
    own.length === 0
      ? `Detent knows no fault of ${owner.value.id} (${owner.value.name ?? owner.value.kind.title}); its joints fail with the wires that end there`
      : dot < 0
        ? `${subject.text} has several pieces, and \`${piece.text}\` does not say which`
        : `${owner.value.id} has no piece \`${subject.text.slice(dot + 1)}\` that can fail`;
  return failed(problemAt(subject, 'unknown-fault', what, why, near(piece.text, words, own, modes)));
}

/** At most four phrases: near in letters among the part's own, else the same words of its other pieces, else its first. */
function near(phrase: string, words: string, own: readonly PartFault[], all: readonly PartFault[]): readonly string[] {
  const phrases = (list: readonly PartFault[]) => list.map((f) => faultOf(f.part, f.mode).phrase);
  const same = own.filter((f) => f.mode.words !== '' && words.startsWith(f.mode.words.toLowerCase()));
  const found = [
    ...nearNames(phrase, phrases(own)),
    ...phrases(same),
    ...(own.length > 0 ? phrases(own) : nearNames(phrase, phrases(all))),
  ];
  return [...new Set(found)].slice(0, 4);
}

function examples(circuit: Circuit): readonly string[] {
  return faultModes(circuit)
    .slice(0, 4)
    .map((f) => faultOf(f.part, f.mode).phrase);
}
