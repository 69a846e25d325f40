import type { Circuit } from '../circuit/circuit.ts';
import type { Part, Store } from '../circuit/part.ts';
import { amperesInto, type OperatingPoint } from '../solve/operatingPoint.ts';
import { capacityLeft, ownLossFactor } from './batteryTables.ts';
import { noStartCharge } from './noStart.ts';
import { hoursByRule, usableByRule } from './shopRule.ts';

/** How long a battery lasts against a draw. */
export type BatteryTime = {
  /** Ah that may be taken before the engine cannot be started. */
  readonly ampereHours: number;
  readonly hoursToNoStart: number;
  /** Worst: a battery that only just passes a load test, a fifth smaller, the current read a tenth low. Best: a fifth larger, read a tenth high. */
  readonly spread: readonly [worst: number, best: number];
  /** The shop rules: 40 and 60 % of the capacity used. */
  readonly byRule: readonly [least: number, most: number];
  /** Charge left at which it no longer cranks, 0..1; the same for a battery that only just passes a load test. */
  readonly noStartCharge: number;
  readonly agedNoStartCharge: number;
  readonly charge: number;
  readonly capacity_Ah: number;
  /** Current through the battery cable, and what the battery loses by itself, A. */
  readonly amperes: number;
  readonly own_A: number;
  /** °C. */
  readonly ambient: number;
};

/** Uncertainty of a battery's true capacity and of a clamp reading (estimates). */
const capacitySpread = 0.2;
const readingSpread = 0.1;

/**
 * Hours until the vehicle cannot be started, from the cranking model: the charge at which the starter no longer turns
 * as it should, at the circuit's temperature; then what may be taken, over the draw and the battery's own loss.
 *
 * @param amperes key-off current, A, taken as steady: modules asleep
 * @param inside  what leaks over the battery itself, A
 * @param at      the vehicle left standing, for the shares of several batteries; absent: the first has it all
 * @returns undefined for a circuit without a battery
 */
export function batteryTime(circuit: Circuit, amperes: number, inside = 0, at?: OperatingPoint): BatteryTime | undefined {
  const battery = weakest(circuit, amperes, at);
  if (!battery) return undefined;
  const { store, share } = battery;
  const { ambient } = circuit;
  const [floor, agedFloor] = [noStartCharge(circuit), noStartCharge(circuit, true)];
  const capacity_Ah = store.capacity_Ah / share;
  const given_Ah = capacity_Ah * capacityLeft(ambient);
  const usable = (from: number) => Math.max(0, store.charge - from) * given_Ah;
  const own_A = (store.losesPerDay * capacity_Ah * ownLossFactor(ambient)) / 24 + inside;
  const hours = (ampereHours: number, reading: number) => ampereHours / Math.max(1e-9, amperes * reading + own_A);
  return {
    ampereHours: usable(floor),
    hoursToNoStart: hours(usable(floor), 1),
    spread: [
      hours((1 - capacitySpread) * usable(agedFloor), 1 + readingSpread),
      hours((1 + capacitySpread) * usable(floor), 1 - readingSpread),
    ],
    byRule: [
      hoursByRule(given_Ah, amperes + own_A, store.charge, usableByRule.least),
      hoursByRule(given_Ah, amperes + own_A, store.charge, usableByRule.most),
    ],
    noStartCharge: floor,
    agedNoStartCharge: agedFloor,
    charge: store.charge,
    capacity_Ah,
    amperes,
    own_A,
    ambient,
  };
}

/** Charge after so many hours, 0..1; and with the battery and reading at their worst and best. */
export function chargeAfter(time: BatteryTime, hours: number): { readonly charge: number; readonly from: number; readonly to: number } {
  const { charge, capacity_Ah, amperes, own_A, ambient } = time;
  const after = (capacity: number, reading: number) =>
    Math.max(0, charge - ((amperes * reading + own_A) * hours) / (capacity * capacity_Ah * capacityLeft(ambient)));
  return {
    charge: after(1, 1),
    from: after(1 - capacitySpread, 1 + readingSpread),
    to: after(1 + capacitySpread, 1 - readingSpread),
  };
}

/** The battery that is empty first, with its share of the vehicle's current: all of it in series, a part side by side. */
function weakest(
  circuit: Circuit,
  amperes: number,
  at: OperatingPoint | undefined,
): { readonly store: Store; readonly share: number } | undefined {
  const found = storesOf(circuit).map(({ part, store }) => {
    const plus = `${part.id}.${part.kind.supply?.(part)?.[0] ?? '+'}`;
    const own = at && amperes > 1e-6 ? -amperesInto(at, plus) / amperes : 1;
    // In series each gives it all, but for what leaks in between.
    return { store, share: own > 0.95 ? 1 : own > 1e-3 ? own : Number.POSITIVE_INFINITY };
  });
  const lasts = ({ store, share }: (typeof found)[number]) => (store.capacity_Ah * store.charge) / share;
  const fed = found.filter((f) => f.share !== Number.POSITIVE_INFINITY);
  return fed.sort((a, b) => lasts(a) - lasts(b))[0] ?? (found[0] && { ...found[0], share: 1 });
}

/** Parts that hold charge. */
function storesOf(circuit: Circuit): readonly { readonly part: Part; readonly store: Store }[] {
  return [...circuit.parts.values()].flatMap((part) => (part.kind.store ? [{ part, store: part.kind.store(part) }] : []));
}
