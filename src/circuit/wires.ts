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

/** Looks up the ends of wires. `parts` are those read well; `faulty` are ids whose part has a problem of its own already told. */
export type Board = {
  readonly parts: ReadonlyMap<string, Part>;
  readonly faulty: ReadonlySet<string>;
  readonly terminalsOf: (part: Part) => readonly string[];
};

const unknown: Fastened = { unknown: true };
/** Other words for the body, none of them read. */
const bodyWords = new Set(['gnd', 'earth', 'mass', 'chassis', 'body', 'frame', 'masse', '31', '0', '0v', '-']);

/** Where a wire end is fastened: `ground`, `block`, `PART.TERMINAL`, or the id of a part with a single terminal. */
export function fastened(end: string, role: 'starts' | 'ends' | 'passes', wire: string, at: Span, board: Board, tell: Tell): Fastened {
  if (end === GROUND || end === BLOCK) return { terminal: end };
  const dot = end.indexOf('.');
  const id = dot < 0 ? end : end.slice(0, dot);
  const terminal = dot < 0 ? undefined : end.slice(dot + 1);
  const part = board.parts.get(id);
  const verb = role === 'passes' ? 'passes' : `${role} at`;
  if (!part) {
    if (board.faulty.has(id)) return unknown;
    const near = nearNames(id, [...board.parts.keys(), ...board.faulty]);
    const mend = bodyWords.has(end.toLowerCase())
      ? ['the body of the vehicle is written `ground`, the engine block `block`']
      : near.length > 0
        ? [`parts with a near name: ${ticked(near)}`]
        : [`add the part \`${id}\``, 'the body of the vehicle is written `ground`'];
    tell(at, { code: 'unknown-part', what: `wire ${wire} ${verb} \`${end}\`, and no part has the id \`${id}\``, why: whyLost(role), mend });
    return unknown;
  }
  const names = board.terminalsOf(part);
  if (terminal === undefined) {
    if (names.length === 1) return { terminal: `${id}.${names[0]}` };
    tell(at, {
      code: 'terminal-missing',
      what: `wire ${wire} ${verb} \`${end}\` without saying at which of its terminals`,
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
    what: `wire ${wire} ${verb} \`${end}\`, which ${part.kind.title} ${id} does not have`,
    why: whyLost(role),
    mend: [`terminals${near.length > 0 ? ' with a near name' : ''}: ${ticked(list.slice(0, 8).map((n) => `${id}.${n}`))}`],
  });
  return unknown;
}

function whyLost(role: 'starts' | 'ends' | 'passes'): string {
  if (role === 'passes') return 'the two halves of the wire would not meet, and no reading could be laid at the pin';
  return 'what hangs on this wire would seem to have no feed or no return';
}

export function ticked(names: readonly string[]): string {
  return names.map((n) => `\`${n}\``).join(', ');
}

/** Id of a wire without one: its ends with `/` for the point, since a point parts an id from a terminal: `S1/15-R1/1`. */
export function idFromEnds(from: string, to: string, taken: (id: string) => boolean): string {
  const name = `${from.replaceAll('.', '/')}-${to.replaceAll('.', '/')}`;
  if (!taken(name)) return name;
  let k = 2;
  while (taken(`${name}_${k}`)) k++;
  return `${name}_${k}`;
}

/** One stretch of a wire between two fastenings. */
export type Stretch = { readonly id: string; readonly from: Fastened; readonly to: Fastened; readonly share: number };

/**
 * Splits a wire at the connector pins that it passes: W7 via X2.1 becomes W7a up to `X2.1a` and W7b from `X2.1b`.
 * The length is shared equally, since a drawing does not say where along the run the connectors sit.
 */
export function stretches(id: string, wire: WireWritten, board: Board, tell: Tell): readonly Stretch[] {
  const from = fastened(wire.from, 'starts', id, wire.fromSpan, board, tell);
  const to = fastened(wire.to, 'ends', id, wire.toSpan, board, tell);
  if (wire.via.length === 0) return [{ id, from, to, share: 1 }];
  const stops: Fastened[] = [from];
  for (const [k, pin] of wire.via.entries()) {
    const at = wire.viaSpans[k] ?? wire.span;
    const before = passing(pin, id, at, board, tell);
    stops.push(...(before ? [{ terminal: `${pin}a` }, { terminal: `${pin}b` }] : [unknown, unknown]));
  }
  stops.push(to);
  const count = wire.via.length + 1;
  return Array.from({ length: count }, (_, k) => ({ id: id + letters(k), from: stops[2 * k]!, to: stops[2 * k + 1]!, share: 1 / count }));
}

/** Whether `X2.1` has both sides, `X2.1a` and `X2.1b`. */
function passing(pin: string, wire: string, at: Span, board: Board, tell: Tell): boolean {
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
        ? `wire ${wire} passes \`${pin}\`, and ${part.kind.title} ${part.id} has no pins to pass through`
        : `wire ${wire} passes \`${pin}\`, a pin that ${part.id} does not have`,
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
