import type { Circuit } from '../../circuit/circuit.ts';
import type { Part } from '../../circuit/part.ts';
import { quantityText } from '../../circuit/quantity.ts';
import { wholeWires } from './wholeWires.ts';

/** Something that the file does not say and the program took, with what knowing it would gain. */
export type Assumption = {
  readonly part: string;
  readonly parameter: string;
  /** What was taken, in words: `1 m`. */
  readonly taken: string;
  readonly source?: string;
  readonly gain: string;
  /** All of it in one sentence without a full stop. */
  readonly text: string;
};

/**
 * What a circuit leaves open: wires of which only a part is known, boxes whose current nobody measured, and figures of
 * loads and sources that stand on a default. Ideal joints (neither area nor length) are meant so and not listed.
 */
export function assumptions(circuit: Circuit): readonly Assumption[] {
  const wires = [...wholeWires(circuit).values()].flatMap(({ part }) => ofWire(part));
  const parts = [...circuit.parts.values()].filter((p) => p.kind.isWire !== true).flatMap(ofPart);
  return [...wires, ...parts];
}

function ofWire(part: Part): readonly Assumption[] {
  const { area, length } = part.params;
  const known = (name: string) => part.given.has(name);
  if (typeof length === 'number' && !known('length'))
    return [taken(part, 'length', length, 'the drop along it could be told from a bad joint')];
  if (typeof length === 'number' && typeof area === 'number' && !known('area'))
    return [taken(part, 'area', area, 'its drop and what it may carry would be known')];
  if (known('area') && length === undefined)
    return [
      {
        part: part.id,
        parameter: 'length',
        taken: 'no resistance',
        gain: 'the drop along it could be reckoned',
        text: `wire ${part.id}: length not given, so it has no resistance; with it the drop along it could be reckoned`,
      },
    ];
  return [];
}

/** Parameters that answers hang on; contact resistances and limits of verdicts are usual figures and not listed. */
const weighty = new Set(['voltage', 'current', 'power', 'capacity', 'cold-cranking', 'draws', 'resistance', 'rated', 'cranking', 'coil']);

function ofPart(part: Part): readonly Assumption[] {
  return Object.entries(part.kind.parameters).flatMap(([name, parameter]) => {
    const held = part.params[name];
    if (parameter.as !== 'quantity' || typeof held !== 'number' || !weighty.has(name)) return [];
    if (part.given.has(name)) {
      const unmeasured = parameter.required === true && held === 0 && parameter.dimension === 'current';
      return unmeasured ? [taken(part, name, 0, 'with its current measured it would count in drops, fuses and drain')] : [];
    }
    return [taken(part, name, held, 'readings there could be judged closer')];
  });
}

function taken(part: Part, name: string, held: number, gain: string): Assumption {
  const parameter = part.kind.parameters[name];
  const shown = parameter?.as === 'quantity' ? quantityText(held, parameter.dimension) : String(held);
  const what = `${part.kind.title} ${part.id}`;
  return {
    part: part.id,
    parameter: name,
    taken: shown,
    ...(parameter?.source !== undefined && { source: parameter.source }),
    gain,
    text: `${what}: ${name} not given, ${shown} taken${parameter?.source === undefined ? '' : ` (${parameter.source})`}; ${gain}`,
  };
}

/**
 * How far a part's resistance may be from what the circuit says, as a share of it, because figures were not given:
 * a hook for the tolerance of readings. Parts that the file describes fully are not listed.
 *
 * Shares: a guessed length or area halves or doubles (0.5); a default of a load or source is within a third (0.33);
 * an unmeasured box may draw anything (1). All estimates.
 */
export function uncertainShares(circuit: Circuit): ReadonlyMap<string, number> {
  const shares = new Map<string, number>();
  for (const { part, parameter, taken } of assumptions(circuit)) {
    const share = parameter === 'length' || parameter === 'area' ? 0.5 : taken === '0 A' ? 1 : 0.33;
    shares.set(part, Math.max(shares.get(part) ?? 0, share));
  }
  return shares;
}
