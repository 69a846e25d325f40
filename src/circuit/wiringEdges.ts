import type { Circuit } from './circuit.ts';
import type { Element } from './element.ts';
import type { Part } from './part.ts';

/** An element of a part between two points of the wiring. A wire's end is the terminal that it is fastened to. */
export type Edge = { readonly part: Part; readonly element: string; readonly a: string; readonly b: string };

/** A joint: what a wire, fuse or connector has. A ballast or a coil has more. */
const joint_ohm = 0.1;

/** Where a terminal of a part is in the wiring. */
export function pointOf(fastened: ReadonlyMap<string, string>, part: string, terminal: string): string {
  if (terminal === 'ground' || terminal === 'block') return terminal;
  const own = `${part}.${terminal}`;
  return fastened.get(own) ?? own;
}

export function edgesOf(circuit: Circuit, fastened: ReadonlyMap<string, string>, part: Part): readonly Edge[] {
  return elementsAt(part, restSetting(part), circuit.ambient).map((e) => {
    const [a, b] = 'plus' in e ? [e.plus, e.minus] : 'into' in e ? [e.into, e.outOf] : [e.from, e.to];
    return { part, element: e.id, a: pointOf(fastened, part.id, a), b: pointOf(fastened, part.id, b) };
  });
}

/** Ω of an edge at a setting of its part. A law (a diode, a filament) may carry current, and is no joint: NaN. */
export function ohmsOf(circuit: Circuit, edge: Edge, setting: string): number {
  const e = elementsAt(edge.part, setting, circuit.ambient).find((x) => x.id === edge.element);
  return e === undefined ? Number.POSITIVE_INFINITY : 'from' in e && 'ohm' in e ? e.ohm : Number.NaN;
}

/** True for what nothing switches: a wire, a fuse, a plug; not a contact, not a load. */
export function isJoint(circuit: Circuit, edge: Edge): boolean {
  const { part } = edge;
  const varies = part.kind.varies ?? [];
  if (part.isLoad || varies.some((v) => v !== 'state')) return false;
  // A relay has a coil beside its contact; a fuse, which also varies with its own state, is one piece.
  if (varies.length > 0 && elementsAt(part, restSetting(part), circuit.ambient).length > 1) return false;
  return ohmsOf(circuit, edge, restSetting(part)) <= joint_ohm;
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
