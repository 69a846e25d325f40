import type { Circuit } from '../circuit/circuit.ts';
import type { PartChange } from '../solve/network.ts';
import { amperesThrough } from '../solve/operatingPoint.ts';
import { keyOff } from './keyOff.ts';

/** What a millivoltmeter across a seated fuse reads with the key out. */
export type FuseDrop = {
  readonly fuse: string;
  readonly rating_A: number;
  readonly ohm: number;
  /** Relative uncertainty of the fuse's resistance. */
  readonly spread: number;
  readonly source: string;
  readonly healthy_V: number;
  readonly supposed_V: number;
  readonly healthy_A: number;
  readonly supposed_A: number;
};

/** Smallest step that a workshop meter shows in its millivolt range, V. Source: a maker's requirement for workshop meters: 0.1 mV (secondary). */
export const meterStep_V = 1e-4;

/** Expected millivolts over every fuse, healthy and as supposed, to print and take along. In file order. */
export function fuseDrops(circuit: Circuit, supposed: readonly PartChange[] = []): readonly FuseDrop[] {
  const sound = keyOff(circuit).at;
  const faulty = supposed.length === 0 ? sound : keyOff(circuit, supposed).at;
  return [...circuit.parts.values()].flatMap((part): readonly FuseDrop[] => {
    const shunt = part.kind.shunt?.(part);
    if (!shunt) return [];
    const [healthy_A, supposed_A] = [sound, faulty].map((at) => Math.abs(amperesThrough(at, part.id))) as [number, number];
    const { rating_A, ohm, spread, source } = shunt;
    return [
      { fuse: part.id, rating_A, ohm, spread, source, healthy_A, supposed_A, healthy_V: healthy_A * ohm, supposed_V: supposed_A * ohm },
    ];
  });
}

/** Current that a reading across a fuse stands for, A, with its range from the fuse's spread and the meter's step. */
export function currentFromDrop(
  volts: number,
  ohm: number,
  spread: number,
): { readonly amperes: number; readonly from: number; readonly to: number } {
  const step = meterStep_V / 2;
  return { amperes: volts / ohm, from: Math.max(0, volts - step) / (ohm * (1 + spread)), to: (volts + step) / (ohm * (1 - spread)) };
}
