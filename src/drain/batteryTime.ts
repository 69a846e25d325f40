import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Part } from '../circuit/part.ts';
import type { KeyPlace, State } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { loadsAt } from '../solve/loads.ts';
import { network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { tableNeeds } from '../solve/tableNeeds.ts';

/** How long a battery lasts against a draw. */
export type BatteryTime = {
  /** Ah that may be taken before the engine cannot be started. */
  readonly ampereHours: number;
  readonly hoursToNoStart: number;
  /** The same with the battery a fifth smaller or larger, and the draw read a tenth wrong: worst and best. */
  readonly spread: readonly [worst: number, best: number];
  /** Charge left at which it no longer cranks, 0..1. */
  readonly noStartCharge: number;
  readonly charge: number;
  readonly capacity_Ah: number;
};

/** Uncertainty of a battery's true capacity and of a clamp reading (estimates). */
const capacitySpread = 0.2;
const readingSpread = 0.1;

/** Without an engine to crank, a battery counts as flat here (common practice, no source: 40 % used, 60 % left is the shop rule for starting; half is common for supply only). */
const flatWithoutEngine = 0.2;

/**
 * Hours until the vehicle cannot be started, from the cranking model: the charge at which the starter no longer turns
 * as it should, found by halving on the solver, at the circuit's temperature; then what may be taken, over the draw and
 * the battery's own loss.
 *
 * @param amperes key-off current, A, taken as steady: modules asleep
 * @returns undefined for a circuit without a battery
 */
export function batteryTime(circuit: Circuit, amperes: number): BatteryTime | undefined {
  const part = [...circuit.parts.values()].find((p) => p.kind.store !== undefined);
  const store = part?.kind.store?.(part);
  if (!part || !store) return undefined;
  const noStartCharge = noStart(circuit);
  const usable = Math.max(0, store.charge - noStartCharge) * store.capacity_Ah;
  const own_A = (store.losesPerDay * store.capacity_Ah) / 24;
  const hours = (capacity: number, reading: number) => (usable * capacity) / Math.max(1e-9, amperes * reading + own_A);
  return {
    ampereHours: usable,
    hoursToNoStart: hours(1, 1),
    spread: [hours(1 - capacitySpread, 1 + readingSpread), hours(1 + capacitySpread, 1 - readingSpread)],
    noStartCharge,
    charge: store.charge,
    capacity_Ah: store.capacity_Ah,
  };
}

const known = new WeakMap<Circuit, number>();

/** Charge under which the starter is weak or dead, 0..1. */
function noStart(circuit: Circuit): number {
  const before = known.get(circuit);
  if (before !== undefined) return before;
  const crank = circuit.engine?.crank;
  const place = crank === undefined ? undefined : crankingPlace(circuit, crank);
  let charge = flatWithoutEngine;
  if (crank !== undefined && place !== undefined) {
    let [low, high] = [0, 1];
    if (!cranks(circuit, crank, place, 1)) low = 1;
    else if (cranks(circuit, crank, place, 0)) high = 0;
    for (let k = 0; k < 20 && high - low > 1e-3; k++) {
      const middle = (low + high) / 2;
      if (cranks(circuit, crank, place, middle)) high = middle;
      else low = middle;
    }
    charge = high;
  }
  known.set(circuit, charge);
  return charge;
}

/** Where the key makes the starter of the healthy vehicle turn; undefined when it never does. */
function crankingPlace(circuit: Circuit, crank: string): KeyPlace | undefined {
  const lock = keySwitchOf(circuit);
  if (!lock) return undefined;
  const places = keyStretches(lock.model).map((s): KeyPlace => ({ angle: s.keyAngle, came: 'up', in: true }));
  return places.find((p) => cranks(circuit, crank, p, 1));
}

function cranks(circuit: Circuit, crank: string, key: KeyPlace, charge: number): boolean {
  const states = new Map<string, State>();
  for (const p of circuit.parts.values()) if (p.kind.store) states.set(p.id, { ...p.kind.initial?.(p), charge });
  const scene = { ...restScene(circuit), key, hand: tableNeeds(circuit).get(crank) ?? {} };
  const seen = loadsAt(operatingPoint(network(circuit), scene, states)).find((l) => l.id === crank);
  return seen?.verdict === 'works';
}

/** Part that holds the charge, for a play or a curve. */
export const batteryOf = (circuit: Circuit): Part | undefined => [...circuit.parts.values()].find((p) => p.kind.store !== undefined);
