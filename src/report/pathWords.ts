import type { Circuit } from '../circuit/circuit.ts';
import { loadsAt } from '../solve/loads.ts';
import { type OperatingPoint, voltsAt } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';
import { amperesText, voltsText } from './positionRows.ts';

/** Less than this through a load is no current to anybody, A: leaks of open switches and meters. */
const nothing_A = 1e-6;

/**
 * A drawing in words, a sentence for each load: whether it works, and the way of its current from the supply to the
 * load and back, part by part, with the volts at the load. For those who do not see the drawing.
 */
export function pathWords(at: OperatingPoint): readonly string[] {
  const { circuit } = at.network;
  return loadsAt(at).map(({ id, verdict, volts, amperes }) => {
    const part = circuit.parts.get(id)!;
    const name = `${id}${part.name === undefined ? '' : `, ${part.name}`}`;
    const { feed, return: back } = currentPaths(at, part);
    if (feed.terminals.length === 0 || Math.abs(amperes) < nothing_A) return `${name}: ${verdict}; no current flows.`;
    const ends = part.kind.loadEnds?.(part).map((t) => voltsAt(at, `${id}.${t}`)) ?? [];
    const live = ends.find((v) => v !== null && v !== undefined && Math.abs(v) > 0.05);
    const figures = `${voltsText(volts)}, ${amperesText(Math.abs(amperes))}${live === undefined || live === null ? '' : `, ${voltsText(live)} at its feed`}`;
    return `${name}: ${verdict}, ${figures}; feed ${partsAlong(feed.terminals, circuit)}; return ${partsAlong(back.terminals, circuit)}.`;
  });
}

/** Parts along a way, each once: `G1, F1, S1, T1`. */
function partsAlong(terminals: readonly string[], circuit: Circuit): string {
  const parts: string[] = [];
  for (const t of terminals) {
    const dot = t.lastIndexOf('.');
    const part = dot < 0 ? t : t.slice(0, dot);
    if (parts.at(-1) !== part && (dot < 0 || circuit.parts.has(part))) parts.push(part);
  }
  return parts.join(', ');
}
