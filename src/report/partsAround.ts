import { BLOCK, type Circuit, GROUND } from '../circuit/circuit.ts';
import type { Part } from '../circuit/part.ts';

/**
 * What belongs to some of a circuit's loads: everything that lies on a way from a supply through the load and back,
 * not through other loads, and the coils that move a relay on such a way with their own feed. By part id.
 *
 * Ways are found by the wiring alone: from the loads outward to the supplies and grounds, then dead ends are pruned
 * until none is left.
 * Cost: near linear in parts and wires, times the depth of the pruning.
 */
export function partsAround(circuit: Circuit, loads: readonly string[]): ReadonlySet<string> {
  const graph = terminalGraph(circuit);
  const wanted = new Set(loads);
  for (;;) {
    const kept = waysOf(circuit, graph, wanted);
    // A part on the way that is worked by its own current: that current counts as one more load.
    const more = [...kept].filter((id) => !wanted.has(id) && hasOwnDraw(circuit.parts.get(id)));
    if (more.length === 0) return kept;
    for (const id of more) wanted.add(id);
  }
}

/** `edge`: one wire, contact, pin or winding; a part may have many. */
type Graph = ReadonlyMap<string, readonly { readonly part: string; readonly edge: string; readonly to: string }[]>;
const partOf = (terminal: string) => terminal.slice(0, terminal.lastIndexOf('.'));

/** A part that carries its own current besides switching: relay with coil, starter with windings. */
function hasOwnDraw(part: Part | undefined): boolean {
  return part !== undefined && !part.isLoad && part.kind.settle !== undefined && part.kind.poles(part).length > 1;
}

/** Which points lie beside which, through wires and through the poles of parts. */
function terminalGraph(circuit: Circuit): Graph {
  const beside = new Map<string, { part: string; edge: string; to: string }[]>();
  const add = (a: string, b: string, part: string, pole = '') => {
    const edge = `${part} ${pole}`;
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const list = beside.get(from);
      if (list) list.push({ part, edge, to });
      else beside.set(from, [{ part, edge, to }]);
    }
  };
  const ends = new Map<string, string[]>();
  for (const [end, terminal] of circuit.attached) {
    const list = ends.get(partOf(end));
    if (list) list.push(terminal);
    else ends.set(partOf(end), [terminal]);
  }
  for (const part of circuit.parts.values()) {
    if (part.kind.isWire) {
      const [a, b] = ends.get(part.id) ?? [];
      if (a !== undefined && b !== undefined) add(a, b, part.id);
      continue;
    }
    for (const pole of part.kind.poles(part)) add(wide(part.id, pole.from), wide(part.id, pole.to), part.id, pole.id);
  }
  return beside;
}

const wide = (part: string, terminal: string) => (terminal === GROUND || terminal === BLOCK ? terminal : `${part}.${terminal}`);

function waysOf(circuit: Circuit, graph: Graph, wanted: ReadonlySet<string>): ReadonlySet<string> {
  const supplies = new Set([...circuit.parts.values()].filter((p) => p.kind.supply?.(p) !== undefined).map((p) => p.id));
  const isOther = (id: string) => !wanted.has(id) && !supplies.has(id) && circuit.parts.get(id)?.isLoad === true;
  const isCommon = (terminal: string) => terminal === GROUND || terminal === BLOCK;
  const seen = new Set<string>();
  const reached = new Map<string, string>();
  const starts = [...graph.keys()].filter((t) => wanted.has(partOf(t)));
  const front = [...starts, ...[...graph.keys()].filter((t) => supplies.has(partOf(t)))];
  for (let terminal = front.pop(); terminal !== undefined; terminal = front.pop()) {
    if (seen.has(terminal)) continue;
    seen.add(terminal);
    for (const { part, edge, to } of graph.get(terminal) ?? []) {
      if (isOther(part)) continue;
      reached.set(edge, part);
      // The body is everywhere: beyond it nothing belongs to this load.
      if (!isCommon(to)) front.push(to);
    }
  }
  const kept = pruned(graph, reached, (id) => wanted.has(id) || supplies.has(id));
  return new Set([...kept].map((edge) => reached.get(edge)!));
}

/** Takes away what leads nowhere, again and again: an edge with an end that nothing else kept touches. */
function pruned(graph: Graph, reached: ReadonlyMap<string, string>, isFixed: (part: string) => boolean): ReadonlySet<string> {
  const kept = new Set(reached.keys());
  const endsOf = new Map<string, Set<string>>();
  const touching = new Map<string, Set<string>>();
  const put = (map: Map<string, Set<string>>, key: string, value: string) => {
    const set = map.get(key);
    if (set) set.add(value);
    else map.set(key, new Set([value]));
  };
  for (const [terminal, list] of graph)
    for (const { edge } of list)
      if (kept.has(edge)) {
        put(endsOf, edge, terminal);
        put(touching, terminal, edge);
      }
  const isLoose = (edge: string) =>
    !isFixed(reached.get(edge)!) && [...endsOf.get(edge)!].some((t) => t !== GROUND && t !== BLOCK && touching.get(t)!.size < 2);
  for (let loose = [...kept].filter(isLoose); loose.length > 0; loose = [...kept].filter(isLoose))
    for (const edge of loose) {
      kept.delete(edge);
      for (const terminal of endsOf.get(edge)!) touching.get(terminal)!.delete(edge);
    }
  return kept;
}
