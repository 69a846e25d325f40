import { BLOCK, GROUND } from './circuit.ts';
import { nearNames } from './nearNames.ts';
import type { Part } from './part.ts';
import type { Span, Tell } from './placed.ts';

/** One wire as written, its ends not yet looked up. */
export type WireWritten = {
  readonly id: string | undefined;
  readonly from: string;
  readonly to: string;
  readonly via: readonly string[];
  readonly span: Span;
  readonly fromSpan: Span;
  readonly toSpan: Span;
  readonly viaSpans: readonly Span[];
};

/** A place where a wire can be fastened: the terminal, or `unknown` when the file leaves it open (and that was told). */
export type Fastened = { readonly terminal: string } | { readonly unknown: true };

/** Looks up the ends of wires. `parts` are those read well; `isFaulty` knows ids whose part was told to have a problem. */
export type Board = {
  readonly parts: ReadonlyMap<string, Part>;
  readonly isFaulty: (id: string) => boolean;
  /** Ids of parts near a word. */
  readonly nearParts: (id: string) => readonly string[];
  readonly terminalsOf: (part: Part) => readonly string[];
};

const unknown: Fastened = { unknown: true };
/** Other words for the body, none of them read. */
const bodyWords = new Set(['gnd', 'earth', 'mass', 'chassis', 'body', 'frame', 'masse', '31', '0', '0v', '-']);

type Role = 'starts' | 'ends' | 'passes';

/** `wire W9 starts at`; a wire without an id is named by its other end. */
function opening(wire: WireWritten, role: Role): string {
  const verb = role === 'passes' ? 'passes' : `${role} at`;
  if (wire.id !== undefined) return `wire ${wire.id} ${verb}`;
  if (role === 'passes') return `the wire from ${wire.from} to ${wire.to} passes`;
  return role === 'starts' ? `the wire to ${wire.to} starts at` : `the wire from ${wire.from} ends at`;
}

/** Where a wire end is fastened: `ground`, `block`, `PART.TERMINAL`, or the id of a part with a single terminal. */
function fastened(end: string, role: Role, wire: WireWritten, at: Span, board: Board, tell: Tell): Fastened {
  if (end === GROUND || end === BLOCK) return { terminal: end };
  const dot = end.indexOf('.');
  const id = dot < 0 ? end : end.slice(0, dot);
  const terminal = dot < 0 ? undefined : end.slice(dot + 1);
  const part = board.parts.get(id);
  const says = `${opening(wire, role)} \`${end}\``;
  if (!part) {
    if (board.isFaulty(id)) return unknown;
    tell(at, {
      code: 'unknown-part',
      what: `${says}, and no part has the id \`${id}\``,
      why: whyLost(role),
      mend: nearParts(end, id, board),
    });
    return unknown;
  }
  const names = board.terminalsOf(part);
  if (terminal === undefined) {
    if (names.length === 1) return { terminal: `${id}.${names[0]}` };
    tell(at, {
      code: 'terminal-missing',
      what: `${says} without saying at which of its terminals`,
      why: `${part.kind.title} ${id} has ${names.length} terminals, and each leads elsewhere`,
      mend: [`terminals: ${ticked(names.slice(0, 12).map((n) => `${id}.${n}`))}`],
    });
    return unknown;
  }
  if (names.includes(terminal)) return { terminal: end };
  const near = nearNames(terminal, names);
  const list = near.length > 0 ? near : names;
  tell(at, {
    code: 'unknown-terminal',
    what: `${says}, which ${part.kind.title} ${id} does not have`,
    why: whyLost(role),
    mend: [`terminals${near.length > 0 ? ' with a near name' : ''}: ${ticked(list.slice(0, 8).map((n) => `${id}.${n}`))}`],
  });
  return unknown;
}

function nearParts(end: string, id: string, board: Board): readonly string[] {
  const body = 'the body of the vehicle is written `ground`, the engine block `block`';
  if (bodyWords.has(end.toLowerCase()) || nearNames(end, [GROUND, BLOCK]).length > 0) return [body];
  const near = board.nearParts(id);
  return near.length > 0 ? [`parts with a near name: ${ticked(near)}`] : [`add the part \`${id}\``, body];
}

function whyLost(role: Role): string {
  if (role === 'passes') return 'the two halves of the wire would not meet, and no reading could be laid at the pin';
  return 'what hangs on this wire would seem to have no feed or no return';
}

export function ticked(names: readonly string[]): string {
  return names.map((n) => `\`${n}\``).join(', ');
}

/** Id of a wire without one: its ends with `/` for the point, since a point parts an id from a terminal: `S1/15-R1/1`. */
export function idFromEnds(from: string, to: string, taken: (id: string) => boolean, last: Map<string, number>): string {
  const name = `${from.replaceAll('.', '/')}-${to.replaceAll('.', '/')}`;
  if (!taken(name)) return name;
  // Counted on from the last one, so that thousands of equal wires do not look through each other's ids.
  let k = last.get(name) ?? 2;
  while (taken(`${name}_${k}`)) k++;
  last.set(name, k + 1);
  return `${name}_${k}`;
}

/** One stretch of a wire between two fastenings. */
export type Stretch = { readonly id: string; readonly from: Fastened; readonly to: Fastened; readonly share: number };

/**
 * Splits a wire at the connector pins that it passes: W7 via X2.1 becomes W7a up to `X2.1a` and W7b from `X2.1b`.
 * The length is shared equally, since a drawing does not say where along the run the connectors sit.
 */
export function stretches(id: string, wire: WireWritten, board: Board, tell: Tell): readonly Stretch[] {
  const from = fastened(wire.from, 'starts', wire, wire.fromSpan, board, tell);
  const to = fastened(wire.to, 'ends', wire, wire.toSpan, board, tell);
  if ('terminal' in from && 'terminal' in to && from.terminal === to.terminal)
    tell(wire.span, {
      code: 'wire-to-itself',
      what: `${wire.id === undefined ? 'a wire' : `wire ${wire.id}`} starts and ends at \`${from.terminal}\``,
      why: 'it joins nothing, so one of its ends belongs elsewhere',
      mend: ['look up where the diagram leads it'],
    });
  if (wire.via.length === 0) return [{ id, from, to, share: 1 }];
  const stops: Fastened[] = [from];
  for (const [k, pin] of wire.via.entries()) {
    const at = wire.viaSpans[k] ?? wire.span;
    const before = passing(pin, wire, at, board, tell);
    stops.push(...(before ? [{ terminal: `${pin}a` }, { terminal: `${pin}b` }] : [unknown, unknown]));
  }
  stops.push(to);
  const count = wire.via.length + 1;
  return Array.from({ length: count }, (_, k) => ({ id: id + letters(k), from: stops[2 * k]!, to: stops[2 * k + 1]!, share: 1 / count }));
}

/** Whether `X2.1` has both sides, `X2.1a` and `X2.1b`. */
function passing(pin: string, wire: WireWritten, at: Span, board: Board, tell: Tell): boolean {
  const part = board.parts.get(pin.split('.', 1)[0] ?? '');
  const names = part ? board.terminalsOf(part) : [];
  const terminal = part ? pin.slice(part.id.length + 1) : '';
  if (part && names.includes(`${terminal}a`) && names.includes(`${terminal}b`)) return true;
  if (!part) {
    fastened(pin, 'passes', wire, at, board, tell);
    return false;
  }
  const pins = names.filter((n) => n.endsWith('a') && names.includes(`${n.slice(0, -1)}b`)).map((n) => n.slice(0, -1));
  const near = nearNames(terminal, pins);
  tell(at, {
    code: 'unknown-pin',
    what:
      pins.length === 0
        ? `${opening(wire, 'passes')} \`${pin}\`, and ${part.kind.title} ${part.id} has no pins to pass through`
        : `${opening(wire, 'passes')} \`${pin}\`, a pin that ${part.id} does not have`,
    why: whyLost('passes'),
    mend:
      pins.length === 0
        ? ['`via` names pins of connectors, such as `X2.1`']
        : [`pins: ${ticked((near.length > 0 ? near : pins).slice(0, 8).map((n) => `${part.id}.${n}`))}`],
  });
  return false;
}

/** a, b … z, aa, ab … */
function letters(k: number): string {
  const last = String.fromCharCode(97 + (k % 26));
  return k < 26 ? last : letters(Math.floor(k / 26) - 1) + last;
}
