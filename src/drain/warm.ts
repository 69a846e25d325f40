import type { OperatingPoint } from '../solve/operatingPoint.ts';

/** Heat from which a small part (relay, plug, switch) is felt to be warm after some minutes, W (estimate). */
const felt_W = 0.5;

/** Parts that turn more current to heat than in the healthy vehicle, enough for a hand to feel; loads are seen, not felt. Most heat first. */
export function warmParts(at: OperatingPoint, sound: OperatingPoint): readonly { readonly part: string; readonly watts: number }[] {
  const before = heat(sound);
  return [...heat(at)]
    .filter(([id, watts]) => {
      const part = at.network.circuit.parts.get(id);
      return part !== undefined && !part.isLoad && !part.kind.isWire && !part.kind.store && watts - (before.get(id) ?? 0) >= felt_W;
    })
    .map(([part, watts]) => ({ part, watts }))
    .sort((a, b) => b.watts - a.watts);
}

function heat(at: OperatingPoint): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const [k, b] of at.network.branches.entries()) {
    const volts = at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset;
    found.set(b.part, (found.get(b.part) ?? 0) + volts * at.amperes[k]!);
  }
  return found;
}
