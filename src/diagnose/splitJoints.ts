import type { Circuit } from '../circuit/circuit.ts';
import type { Part, PartKind } from '../circuit/part.ts';

/** What an ideal joint is taken for, Ω: a millimetre of thin wire. Ten amperes lose 0.2 mV on it, less than any reading shows. */
const joint_ohm = 2e-5;

/**
 * The circuit with every ideal joint of a wire made a very short wire. Then a joint that opens or corrodes changes the
 * number of a branch and not the form of the wiring, and all such faults share one layout.
 */
export function splitJoints(circuit: Circuit): Circuit {
  const parts = new Map<string, Part>(
    [...circuit.parts].map(([id, part]) => [id, part.kind.isWire ? { ...part, kind: shortWire(part.kind) } : part]),
  );
  return { ...circuit, parts };
}

const kinds = new WeakMap<PartKind, PartKind>();
function shortWire(kind: PartKind): PartKind {
  const known = kinds.get(kind);
  if (known) return known;
  const made: PartKind = {
    ...kind,
    elements: (part, at) => kind.elements(part, at).map((e) => ('from' in e && 'ohm' in e && e.ohm === 0 ? { ...e, ohm: joint_ohm } : e)),
  };
  kinds.set(kind, made);
  return made;
}
