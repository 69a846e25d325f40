import { BLOCK, type Circuit, GROUND } from '../../circuit/circuit.ts';
import type { Part, Pole } from '../../circuit/part.ts';
import { ends } from '../../solve/faultyElements.ts';
import { atRest } from '../../solve/network.ts';
import { symbolOf } from '../symbols/index.ts';
import type { PartSymbol } from '../symbols/shape.ts';
import { Groups } from './groups.ts';
import { isBetweenBars } from './hanging.ts';
import { returnTerminal } from './returnTerminal.ts';

/** A two-terminal piece to be placed. Terminals are global. */
export type Piece = {
  readonly index: number;
  readonly id: string;
  readonly part: Part;
  readonly pole: Pole;
  readonly symbol: PartSymbol;
  readonly element: string;
  /** +1 when the element's current is counted from `from` to `to`. */
  readonly sense: 1 | -1;
  readonly from: string;
  readonly to: string;
};

/** A wire or a connector pin: it joins two vertices of one net. */
export type Edge = {
  readonly id: string;
  readonly part: string;
  readonly element: string;
  readonly from: string;
  readonly to: string;
  readonly sense: 1 | -1;
  readonly isPin: boolean;
  readonly text: string | undefined;
};

/** All terminals that wires and pins join; a ground bar is a net of its own, whatever joins it to another. */
export type Net = {
  readonly index: number;
  readonly edges: readonly Edge[];
  readonly bar: Bar | undefined;
};
export type Bar = {
  readonly id: string;
  readonly part: Part | undefined;
  readonly vertex: string;
  readonly text: string;
  readonly isGrounded: boolean;
};
/** A strap from one ground bar to another. */
export type Strap = { readonly a: number; readonly b: number; readonly edges: readonly Edge[] };

export type Nets = {
  readonly pieces: readonly Piece[];
  /** Pieces between two ground bars; they hang under them. */
  readonly hanging: readonly Piece[];
  readonly nets: readonly Net[];
  readonly straps: readonly Strap[];
  /** Terminals fastened to each other are one vertex. */
  readonly vertexOf: (terminal: string) => string;
  /** Net of a terminal. */
  readonly netOf: (terminal: string) => number;
};

/** Takes a circuit apart into pieces, and joins its wires, pins and splices to nets. */
export function netsOf(circuit: Circuit, only?: ReadonlySet<string>): Nets {
  const fastened = new Groups();
  for (const [end, terminal] of circuit.attached) fastened.join(terminal, end);
  const vertexOf = (terminal: string) => fastened.root(terminal);

  const all: Piece[] = [];
  const edges: Edge[] = [];
  const bars: Bar[] = [];
  for (const part of circuit.parts.values()) {
    const firstEnds = firstEndsOf(part, circuit.ambient);
    for (const pole of part.kind.poles(part)) {
      const symbol = symbolOf(pole.symbol);
      const global = (t: string) => (t === GROUND || t === BLOCK ? t : `${part.id}.${t}`);
      const id = pole.id === '' ? part.id : `${part.id}.${pole.id}`;
      const local = pole.element ?? pole.id;
      const element = local === '' ? part.id : `${part.id}.${local}`;
      const [from, to] = [global(pole.from), global(pole.to)];
      const sense = firstEnds.get(local) === pole.to ? -1 : 1;
      if (symbol.role === 'wire' || symbol.role === 'pin')
        edges.push({
          id,
          part: part.id,
          element,
          from: vertexOf(from),
          to: vertexOf(to),
          sense,
          isPin: symbol.role === 'pin',
          text: pole.label,
        });
      else if (symbol.role === 'ground')
        bars.push({ id: part.id, part, vertex: vertexOf(from), text: part.name ?? part.place ?? '', isGrounded: true });
      else all.push({ index: all.length, id, part, pole, symbol, element, sense, from, to });
    }
  }
  const touched = new Set([...edges.flatMap((e) => [e.from, e.to]), ...all.flatMap((p) => [vertexOf(p.from), vertexOf(p.to)])]);
  for (const [name, text] of [
    [GROUND, 'body'],
    [BLOCK, 'engine block'],
  ] as const)
    if (touched.has(vertexOf(name))) bars.push({ id: name, part: undefined, vertex: vertexOf(name), text, isGrounded: true });

  // A ground point at which nothing but straps arrive is drawn as a mark on its strap, not as a bar without tracks.
  const barVertices = new Set(bars.map((b) => b.vertex));
  for (const bar of [...bars]) {
    const own = edges.filter((e) => e.from === bar.vertex || e.to === bar.vertex);
    const other = bar.part?.kind.poles(bar.part)[0]?.to;
    const isStrapEnd =
      own.length > 0 &&
      own.every((e) => barVertices.has(e.from) && barVertices.has(e.to)) &&
      !all.some((p) => [p.from, p.to].some((t) => vertexOf(t) === bar.vertex));
    if (!isStrapEnd || other === undefined || !bars.some((b) => b.id === other)) continue;
    bars.splice(bars.indexOf(bar), 1);
    edges.push({ id: bar.id, part: bar.id, element: bar.id, from: bar.vertex, to: vertexOf(other), sense: 1, isPin: true, text: bar.id });
  }

  const returning = returnTerminal(circuit, edges, bars, vertexOf);
  if (returning !== undefined)
    bars.push({ id: returning.id, part: undefined, vertex: vertexOf(returning.terminal), text: 'return', isGrounded: false });

  const joined = new Groups();
  const barAt = new Map<string, Bar>();
  for (const bar of bars) if (!barAt.has(joined.root(bar.vertex))) barAt.set(joined.root(bar.vertex), bar);
  const across: Edge[] = [];
  for (const e of edges) {
    const [a, b] = [joined.root(e.from), joined.root(e.to)];
    if (a === b) continue;
    const [barA, barB] = [barAt.get(a), barAt.get(b)];
    if (barA && barB) {
      across.push(e);
      continue;
    }
    joined.join(a, b);
    const bar = barA ?? barB;
    if (bar) barAt.set(joined.root(a), bar);
  }
  const numbers = new Map<string, number>();
  const netOf = (terminal: string): number => {
    const root = joined.root(vertexOf(terminal));
    const known = numbers.get(root);
    if (known !== undefined) return known;
    numbers.set(root, numbers.size);
    return numbers.size - 1;
  };
  for (const p of all) for (const t of [p.from, p.to]) netOf(t);
  for (const bar of bars) netOf(bar.vertex);
  const held: Edge[][] = Array.from({ length: numbers.size }, () => []);
  for (const e of edges) if (!across.includes(e)) held[numbers.get(joined.root(e.from)) ?? -1]?.push(e);
  const nets = held.map((own, index): Net => ({ index, edges: own, bar: undefined }));
  for (const [root, index] of numbers) nets[index] = { ...nets[index]!, bar: barAt.get(root) };
  const drawn = all.filter((p) => (only === undefined || only.has(p.part.id)) && isJoined(p, all, nets, netOf));
  const isHanging = (p: Piece) => isBetweenBars(p, { nets, netOf });
  const [pieces, hanging] = [drawn.filter((p) => !isHanging(p)), drawn.filter(isHanging)].map((list) =>
    list.map((p, index) => ({ ...p, index })),
  ) as [Piece[], Piece[]];
  return { pieces, hanging, nets, straps: strapsOf(across, netOf), vertexOf, netOf };
}

/** Element -> the end from which its current is counted. */
function firstEndsOf(part: Part, ambient: number): ReadonlyMap<string, string> {
  return new Map(part.kind.elements(part, atRest(part, ambient)).map((e) => [e.id, ends(e)[0]]));
}

/** A piece is left out when both its ends are one net, or when one end is fastened to nothing and its part has other pieces (a relay's spare contact). */
function isJoined(piece: Piece, all: readonly Piece[], nets: readonly Net[], netOf: (t: string) => number): boolean {
  const [a, b] = [netOf(piece.from), netOf(piece.to)];
  if (a === b) return false;
  const isLone = (net: number) =>
    nets[net]!.bar === undefined &&
    nets[net]!.edges.length === 0 &&
    !all.some((p) => p !== piece && (netOf(p.from) === net || netOf(p.to) === net));
  if (!isLone(a) && !isLone(b)) return true;
  return !all.some((p) => p !== piece && p.part === piece.part);
}

function strapsOf(across: readonly Edge[], netOf: (t: string) => number): readonly Strap[] {
  const straps = new Map<string, { a: number; b: number; edges: Edge[] }>();
  for (const e of across) {
    const [a, b] = [netOf(e.from), netOf(e.to)].sort((m, n) => m - n) as [number, number];
    const known = straps.get(`${a}-${b}`);
    if (known) known.edges.push(e);
    else straps.set(`${a}-${b}`, { a, b, edges: [e] });
  }
  return [...straps.values()];
}
