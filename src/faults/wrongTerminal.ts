import type { Circuit } from '../circuit/circuit.ts';
import { done, failed, type Piece, part as pieceFrom, problemAt, sameName } from '../circuit/phrasePiece.ts';
import { partAt, piecesOf, terminalAt } from '../circuit/placePhrase.ts';
import type { Read } from '../circuit/problem.ts';
import { attachFault } from '../parts/wire.ts';
import { type Fault, faultOf } from './fault.ts';
import { faultModes } from './faultModes.ts';

/**
 * `W9.2 on R1.1`: a wire's end on a terminal where it does not belong. Any terminal will do, listed or not.
 *
 * @param subject `W9.2`; the end is 1 or 2, `from` and `to` of the file
 */
export function wrongTerminal(subject: Piece, on: Piece, circuit: Circuit): Read<Fault> {
  const dot = subject.text.lastIndexOf('.');
  const [owner, end] = dot < 0 ? [subject.text, ''] : [subject.text.slice(0, dot), subject.text.slice(dot + 1)];
  const id = sameName(owner, circuit.parts.keys());
  const wire = id === undefined ? undefined : circuit.parts.get(id);
  const unknown = (what: string, mend: readonly string[]) =>
    failed(problemAt(subject, 'unknown-fault', what, 'a wire end is named by the wire and 1 or 2, `from` and `to` of the file', mend));
  if (!wire) {
    const cut = piecesOf(owner, circuit);
    if (cut.length > 0)
      return unknown(`wire ${owner} passes connectors, so it is in pieces here`, [
        `${cut[0]}.1 on ${on.text}`,
        `${cut.at(-1)}.2 on ${on.text}`,
      ]);
    const part = partAt(pieceFrom(subject, 0, owner.length), circuit);
    const from = part.ok ? part.value.id : '';
    return part.ok ? unknown(`only a wire's end can be on another terminal`, endsAt(from, on, circuit)) : part;
  }
  if (wire.kind.isWire !== true)
    return unknown(`${wire.id} is no wire; only a wire's end can be on another terminal`, endsAt(subject.text, on, circuit));
  if (end !== '1' && end !== '2')
    return unknown(`\`${subject.text}\` does not say which end of wire ${wire.id}`, [
      `${wire.id}.1 on ${on.text}`,
      `${wire.id}.2 on ${on.text}`,
    ]);
  const terminal = terminalAt(on, circuit);
  if (!terminal.ok) return terminal;
  const healthy = circuit.attached.find(([own]) => own === `${wire.id}.${end}`)?.[1];
  if (terminal.value === healthy || terminal.value.startsWith(`${wire.id}.`)) {
    const what =
      terminal.value === healthy ? `${wire.id}.${end} belongs on ${terminal.value}` : `${terminal.value} is an end of the same wire`;
    return failed(
      problemAt(on, 'unknown-fault', what, 'a wire where it belongs is no fault', ['name a terminal where it does not belong']),
    );
  }
  const listed = faultModes(circuit).find((f) => f.mode.subject === `${wire.id}.${end}` && f.mode.words === `on ${terminal.value}`);
  return done(faultOf(wire.id, listed?.mode ?? attachFault(wire.id, end === '1' ? 1 : 2, terminal.value)));
}

/** The wire ends that are fastened to a terminal or part, moved as was said. */
function endsAt(place: string, on: Piece, circuit: Circuit): readonly string[] {
  const ends = circuit.attached.filter(([, at]) => at === place || at.startsWith(`${place}.`)).slice(0, 4);
  return ends.length > 0 ? ends.map(([end]) => `${end} on ${on.text}`) : ['name the end of a wire, such as `W9.2`'];
}
