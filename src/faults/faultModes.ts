import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { FaultContext, FaultMode } from '../circuit/part.ts';
import { supplySides } from '../solve/supplySides.ts';
import { faultOf } from './fault.ts';
import { wrongFeedModes } from './wrongFeed.ts';

/** A way in which a circuit can be faulty, with the id of the part whose change it is. */
export type PartFault = { readonly part: string; readonly mode: FaultMode };

const known = new WeakMap<Circuit, readonly PartFault[]>();

/**
 * Every fault that fits the circuit: what each part and wire says of itself, in file order, then what only the circuit
 * knows: wires on the wrong terminal. No phrase comes twice.
 *
 * Cost: once per circuit, near linear in parts.
 */
export function faultModes(circuit: Circuit): readonly PartFault[] {
  const before = known.get(circuit);
  if (before) return before;
  const context = faultContext(circuit);
  const own = [...circuit.parts.values()].flatMap((p) => p.kind.faults(p, context).map((mode) => ({ part: p.id, mode })));
  const seen = new Set<string>();
  const list = [...own, ...wrongFeedModes(circuit)].filter(({ mode }) => {
    const name = suspectName(mode);
    const isNew = !seen.has(name);
    seen.add(name);
    return isNew;
  });
  known.set(circuit, list);
  return list;
}

const bySubject = new WeakMap<Circuit, ReadonlyMap<string, readonly PartFault[]>>();

/** The same by subject: `S1.30-15` -> its modes. */
export function faultsBySubject(circuit: Circuit): ReadonlyMap<string, readonly PartFault[]> {
  const before = bySubject.get(circuit);
  if (before) return before;
  const found = new Map<string, PartFault[]>();
  for (const fault of faultModes(circuit)) {
    const list = found.get(fault.mode.subject);
    if (list) list.push(fault);
    else found.set(fault.mode.subject, [fault]);
  }
  bySubject.set(circuit, found);
  return found;
}

/** Subject and words, without the figure: how bad it is does not make another suspect. A figure alone counts by what it measures. */
export function suspectName(mode: FaultMode): string {
  return mode.words === '' ? `${mode.subject} ${mode.detail?.dimension ?? ''}` : `${mode.subject} ${mode.words}`;
}

function faultContext(circuit: Circuit): FaultContext {
  const positions = keySwitchOf(circuit)?.model.positions.map((p) => p.name) ?? [];
  return { positions, feed: supplySides(circuit)?.live };
}

/** A row of `faults`. */
export type FaultRow = {
  /** The phrase that `--fault` takes, with the usual figure where one is needed. */
  readonly fault: string;
  readonly part: string;
  readonly mode: string;
  readonly text: string;
  readonly weight: number;
  readonly source: string;
};

/** @param part only the faults of this part or wire */
export function faultsOf(circuit: Circuit, part?: string): readonly FaultRow[] {
  return faultModes(circuit)
    .filter((f) => part === undefined || f.part === part)
    .map((f) => ({
      fault: faultOf(f.part, f.mode).phrase,
      part: f.part,
      mode: f.mode.words === '' ? `added ${f.mode.detail?.dimension ?? ''}`.trim() : f.mode.words,
      text: f.mode.text,
      weight: f.mode.weight,
      source: f.mode.source,
    }));
}
