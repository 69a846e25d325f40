import type { Circuit } from './circuit.ts';

/** How far above its highest supply a circuit may be read: supplies in series, charging, a jump start from a truck, a coil's kick. Estimate. */
const room = 4;

/** The most volts that can sensibly be read in a circuit, and the highest of its supplies; undefined where a supply has no volts of its own. */
export function mostVolts(circuit: Circuit): { readonly supply: number; readonly most: number } | undefined {
  const supplies = [...circuit.parts.values()].filter((p) => p.kind.supply?.(p) !== undefined);
  const volts = supplies.map((p) => p.params['voltage']);
  if (volts.length === 0 || !volts.every((v) => typeof v === 'number')) return undefined;
  const supply = Math.max(...volts.map(Math.abs));
  return supply > 0 ? { supply, most: room * supply } : undefined;
}
