import type { Circuit } from '../circuit/circuit.ts';
import type { Part, Verdict } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Member } from './network.ts';
import { type OperatingPoint, operatingPoint } from './operatingPoint.ts';
import { conditionOf, memberOf, readingOf } from './reading.ts';

/** A load as it is at one instant: its verdict by its own limits, and what it was judged by. */
export type LoadSeen = {
  readonly id: string;
  readonly verdict: Verdict | 'chatters';
  /** Across the load, V. */
  readonly volts: number;
  /** Through the load, A. */
  readonly amperes: number;
};

/** Every load of the circuit at one instant, in file order. A load that is out of circuit (unplugged) is dead. */
export function loadsAt(at: OperatingPoint): readonly LoadSeen[] {
  const swings = at.alternate === undefined ? undefined : operatingPoint(at.network, at.scene, at.alternate, false);
  const { circuit } = at.network;
  return remembered(loadsIn, circuit, () => loadsOf(circuit.parts.values())).map((part) => {
    const member = memberOf(at.network, part.id);
    const now = judged(at, member, part);
    if (swings !== undefined && judged(swings, member, part).verdict !== now.verdict) return { ...now, verdict: 'chatters' };
    return now;
  });
}

/** One load at one instant, for those who ask thousands of times. What chatters is told by `loadsAt` only. */
export function loadAt(at: OperatingPoint, id: string): LoadSeen | undefined {
  const part = at.network.circuit.parts.get(id);
  return part && judged(at, memberOf(at.network, id), part);
}

const loadsIn = new WeakMap<Circuit, readonly Part[]>();

/** The parts with a row in the position table. */
export function loadsOf(parts: Iterable<Part>): readonly Part[] {
  return [...parts].filter((p) => p.isLoad && p.kind.judge !== undefined);
}

function judged(at: OperatingPoint, member: Member | undefined, part: Part): LoadSeen {
  if (!member?.part.kind.judge) return { id: part.id, verdict: 'dead', volts: 0, amperes: 0 };
  const { verdict, volts, amperes } = member.part.kind.judge(
    member.part,
    conditionOf(at.network, member, at.scene, at.states),
    readingOf(at, part.id),
  );
  return { id: part.id, verdict, volts, amperes };
}
