import type { Circuit } from './circuit.ts';
import type { Element } from './element.ts';
import type { Part } from './part.ts';

/** An element of a part between two points of the wiring. A wire's end is the terminal that it is fastened to. */
export type Edge = {
  readonly part: Part;
  readonly element: string;
  readonly a: string;
  readonly b: string;
  /** What nothing switches and hardly drops volts: a wire, a fuse, a pin of a plug; no contact, no load. */
  readonly isJoint: boolean;
};

/** The wiring as a graph, whatever is switched. */
export type Wires = { readonly edges: readonly Edge[]; readonly fastened: ReadonlyMap<string, string> };

/** Most that a wire, fuse or pin has, Ω; a ballast or a coil has more. */
const joint_ohm = 0.1;

const known = new WeakMap<Circuit, Wires>();

/** Every element of the circuit between its points, loads included. Cost: once per circuit, linear in parts. */
export function wiresOf(circuit: Circuit): Wires {
  const before = known.get(circuit);
  if (before) return before;
  const fastened = new Map(circuit.attached);
  const edges = [...circuit.parts.values()].flatMap((part) => edgesOf(circuit, fastened, part));
  const wires = { edges, fastened };
  known.set(circuit, wires);
  return wires;
}

/** Where a terminal of a part is in the wiring. */
export function pointOf(fastened: ReadonlyMap<string, string>, part: string, terminal: string): string {
  if (terminal === 'ground' || terminal === 'block') return terminal;
  const own = `${part}.${terminal}`;
  return fastened.get(own) ?? own;
}

function edgesOf(circuit: Circuit, fastened: ReadonlyMap<string, string>, part: Part): readonly Edge[] {
  const elements = elementsAt(part, restSetting(part), circuit.ambient);
  const varies = part.kind.varies ?? [];
  // A relay has a coil beside its contact; a fuse, which also varies with its own state, is one piece.
  const joins = !part.isLoad && !varies.some((v) => v !== 'state') && (varies.length === 0 || elements.length === 1);
  return elements.map((e) => {
    const [a, b] = 'plus' in e ? [e.plus, e.minus] : 'into' in e ? [e.into, e.outOf] : [e.from, e.to];
    const isJoint = joins && 'from' in e && 'ohm' in e && e.ohm <= joint_ohm;
    return { part, element: e.id, a: pointOf(fastened, part.id, a), b: pointOf(fastened, part.id, b), isJoint };
  });
}

/** Ω of an edge at a setting of its part. A law (a diode, a filament) may carry current, and has no ohms: NaN. */
export function ohmsOf(circuit: Circuit, edge: Edge, setting: string): number {
  const e = elementsAt(edge.part, setting, circuit.ambient).find((x) => x.id === edge.element);
  return e === undefined ? Number.POSITIVE_INFINITY : 'from' in e && 'ohm' in e ? e.ohm : Number.NaN;
}

export const restSetting = (part: Part): string => part.kind.settings?.(part)[0] ?? '';

function elementsAt(part: Part, setting: string, ambient: number): readonly Element[] {
  return part.kind.elements(part, { key: undefined, setting, engine: 'stopped', ambient, state: part.kind.initial?.(part) ?? {} });
}

/** Edges at every point, for walks. */
export function edgesBeside(edges: Iterable<Edge>): ReadonlyMap<string, readonly Edge[]> {
  const beside = new Map<string, Edge[]>();
  for (const edge of edges)
    for (const end of [edge.a, edge.b]) {
      const list = beside.get(end);
      if (list) list.push(edge);
      else beside.set(end, [edge]);
    }
  return beside;
}

/** All points that can be reached over passable edges; a barrier point is reached and not left. */
export function reached(
  beside: ReadonlyMap<string, readonly Edge[]>,
  start: readonly string[],
  passable: (edge: Edge) => boolean,
  barrier: ReadonlySet<string> = new Set(),
): ReadonlySet<string> {
  const found = new Set(start);
  const open = [...found];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (barrier.has(at)) continue;
    for (const edge of beside.get(at) ?? []) {
      const next = edge.a === at ? edge.b : edge.a;
      if (found.has(next) || !passable(edge)) continue;
      found.add(next);
      open.push(next);
    }
  }
  return found;
}
