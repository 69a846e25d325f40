import type { Part, Pole } from '../circuit/part.ts';
import { loadsAt } from '../solve/loads.ts';
import { type OperatingPoint, voltsAt } from '../solve/operatingPoint.ts';
import { currentPaths, type Way } from '../solve/paths.ts';

/** One part on the way of a load's current, from the supply down to ground. */
export type WayStep = {
  readonly part: string;
  /** Part and pole as faults name them: `S1.30-15`. */
  readonly subject: string;
  /** `S1` or, of a part with several poles, `S1 30–15` or `X1.3`. */
  readonly title: string;
  readonly name: string;
  readonly symbol: string;
  readonly isClosed: boolean;
  /** Volts at the end where the current leaves it; null: tied to nothing. */
  readonly volts: number | null;
  /** Volts there in the healthy circuit. */
  readonly healthy: number | null;
  readonly isLoad: boolean;
};

export type WayDown = {
  readonly load: string;
  readonly steps: readonly WayStep[];
  /** The current flows now; else the way is that of the healthy circuit. */
  readonly flows: boolean;
};

/**
 * The way of one load's current, straight down: the parts passed, wires and joints left out, with the volts between.
 * When nothing flows now, the way of the healthy circuit is told, with the volts as they stand now.
 *
 * @returns undefined when the load carries nothing in the healthy circuit either
 */
export function wayDown(at: OperatingPoint, healthy: OperatingPoint, load: string): WayDown | undefined {
  const part = at.network.circuit.parts.get(load);
  if (!part) return undefined;
  // A dead load still carries the trace that drops along a shared ground drive through it: that is not its way.
  const lives = (point: OperatingPoint) => loadsAt(point).find((l) => l.id === load)?.verdict !== 'dead';
  const flows = lives(at);
  if (!flows && !lives(healthy)) return undefined;
  const paths = currentPaths(flows ? at : healthy, part);
  if (paths.feed.elements.length === 0) return undefined;
  const ends = part.kind.loadEnds?.(part) ?? ['', ''];
  const own: WayStep = { ...stepOf(at, healthy, part, part.kind.poles(part)[0], `${load}.${ends[1]}`, load), isLoad: true };
  return {
    load,
    flows,
    steps: [...supplyStep(at, healthy, paths.feed), ...stepsAlong(at, healthy, paths.feed), own, ...stepsAlong(at, healthy, paths.return)],
  };
}

/** The supply on top, with the volts at the terminal where the current leaves it. */
function supplyStep(at: OperatingPoint, healthy: OperatingPoint, feed: Way): readonly WayStep[] {
  const terminal = feed.terminals[0];
  const part = terminal === undefined ? undefined : at.network.circuit.parts.get(terminal.slice(0, terminal.lastIndexOf('.')));
  if (terminal === undefined || part?.kind.supply?.(part) === undefined) return [];
  const step = stepOf(at, healthy, part, part.kind.poles(part)[0], terminal, part.id);
  return [{ ...step, title: part.id, subject: part.id }];
}

function stepsAlong(at: OperatingPoint, healthy: OperatingPoint, way: Way): readonly WayStep[] {
  return way.elements.flatMap(({ id, forwards }): readonly WayStep[] => {
    const k = at.network.branchOf.get(id);
    const branch = k === undefined ? undefined : at.network.branches[k];
    const part = branch && at.network.circuit.parts.get(branch.part);
    if (!branch || !part || part.kind.isWire) return [];
    const local = id === part.id ? '' : id.slice(part.id.length + 1);
    const pole = part.kind.poles(part).find((p) => (p.element ?? p.id) === local);
    if (!pole) return [];
    return [stepOf(at, healthy, part, pole, forwards ? branch.toTerminal : branch.fromTerminal, id)];
  });
}

function stepOf(at: OperatingPoint, healthy: OperatingPoint, part: Part, pole: Pole | undefined, below: string, element: string): WayStep {
  const k = at.network.branchOf.get(element);
  const many = part.kind.poles(part).length > 1 && pole !== undefined && pole.id !== '';
  return {
    part: part.id,
    subject: pole === undefined || pole.id === '' ? part.id : `${part.id}.${pole.id}`,
    title: many ? `${part.id}${pole.id.includes('-') ? ' ' : '.'}${pole.id.replace('-', '–')}` : part.id,
    name: part.name ?? part.kind.title,
    symbol: pole?.symbol ?? '',
    isClosed: k !== undefined && (at.siemens[k]! > 0 || at.network.branches[k]!.from === at.network.branches[k]!.to),
    volts: voltsAt(at, below) ?? null,
    healthy: voltsAt(healthy, below) ?? null,
    isLoad: false,
  };
}
