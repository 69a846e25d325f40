import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';

/** Phrases with names that the circuit has, for messages that show how something is said. */
export type Examples = {
  readonly load: string;
  readonly volts: string;
  readonly between: string;
  readonly amperes: string;
  /** Of a part on the bench: `S1.30 to S1.15 at ON`. */
  readonly bench: string;
  readonly exchanged: string;
  readonly touched: string;
};

export function examplesOf(circuit: Circuit): Examples {
  const lock = keySwitchOf(circuit);
  const parts = [...circuit.parts.values()].filter((p) => p.kind.isWire !== true);
  const load = parts.find((p) => p.isLoad && p.kind.judge)?.id ?? 'M1';
  const plug = parts.find((p) => p.kind.letter === 'X')?.id ?? lock?.part.id ?? load;
  const supply = parts.find((p) => p.kind.supply !== undefined);
  const pairOf = parts.find((p) => p.id !== supply?.id && p.kind.terminals(p).length > 1);
  const contact = lock?.model.contacts[0]?.id.split('-') ?? pairOf?.kind.terminals(pairOf).map((t) => t.name) ?? ['1', '2'];
  const owner = lock?.part.id ?? pairOf?.id ?? load;
  const [first, second] = contact.map((t) => `${owner}.${t}`) as [string, string];
  const closed = lock?.model.positions.find((p) => lock.model.contacts[0]?.sectors.some(([a, b]) => p.angle >= a && p.angle <= b));
  return {
    load: `${load} works`,
    volts: `0.4 V at ${second}`,
    between: `11.8 V from ${first} to ${second}`,
    amperes: `320 mA at ${supply?.id ?? owner}.${supply?.kind.supply?.(supply)?.[1] ?? contact[0]}`,
    bench: `${first} to ${second}${closed ? ` at ${closed.name}` : ''}`,
    exchanged: `replaced ${owner}`,
    touched: `wiggled ${plug}`,
  };
}
