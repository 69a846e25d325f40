import type { Circuit } from '../../circuit/circuit.ts';
import { Groups } from './groups.ts';
import type { Bar, Edge } from './nets.ts';

/** The minus of the first supply, where no ground point gathers the returns. */
export function returnTerminal(circuit: Circuit, edges: readonly Edge[], bars: readonly Bar[], vertexOf: (t: string) => string) {
  for (const part of circuit.parts.values()) {
    const ends = part.kind.supply?.(part);
    if (!ends) continue;
    const near = new Groups();
    for (const e of edges) near.join(e.from, e.to);
    const [plus, minus] = ends.map((t) => near.root(vertexOf(`${part.id}.${t}`)));
    const grounded = bars.some((bar) => [plus, minus].includes(near.root(bar.vertex)));
    return grounded ? undefined : { id: `${part.id}.${ends[1]}`, terminal: `${part.id}.${ends[1]}` };
  }
  return undefined;
}
