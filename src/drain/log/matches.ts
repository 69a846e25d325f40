import type { DrainFault } from '../drainBelief.ts';
import type { Staircase } from '../staircase.ts';
import type { Beat, LogStep } from './steps.ts';

/** Something in the circuit that would make a change of this size. */
export type Match = { readonly part: string; readonly what: string; readonly amperes: number };

/** Sizes agree within this share and this much: a clamp, and what a part draws beside its nameplate (estimate). */
const share = 0.15;
const floor_A = 0.004;
const most = 4;

const alike = (a: number, b: number): boolean => Math.abs(a - b) <= floor_A + share * Math.max(a, b);
const nearest = (size: number) => (a: { readonly amperes: number }, b: { readonly amperes: number }) =>
  Math.abs(a.amperes - size) - Math.abs(b.amperes - size);

/** Modules and relays whose going to sleep makes a step down of this size, nearest first. */
export function sleepers(step: LogStep, stairs: Staircase | undefined): readonly Match[] {
  const size = step.from_A - step.to_A;
  if (!stairs || size <= 0) return [];
  return stairs.treads
    .flatMap((tread, k): readonly Match[] => {
      const before = stairs.treads[k - 1];
      if (!before) return [];
      return tread.events.map(({ part, what }) => ({ part, what, amperes: before.amperes - tread.amperes }));
    })
    .filter((m) => alike(m.amperes, size))
    .sort(nearest(size));
}

/** Faults that draw this much more than the healthy vehicle: likeliest of those that agree first. */
export function drawers(size: number, faults: readonly DrainFault[], healthy_A: number): readonly Match[] {
  return faults
    .filter((d) => alike(d.amperes - healthy_A, size))
    .sort((a, b) => b.prior - a.prior)
    .slice(0, most)
    .map((d) => ({
      part: d.faults[0]?.part ?? '',
      what: d.faults.map((f) => `${f.phrase}: ${f.mode.text}`).join('; '),
      amperes: d.amperes - healthy_A,
    }));
}

/** What comes and goes: faults of its size, those that are there only sometimes first. */
export const beaters = (beat: Beat, faults: readonly DrainFault[], healthy_A: number): readonly Match[] =>
  drawers(
    beat.amperes,
    [...faults].sort((a, b) => Number(isLoose(b)) - Number(isLoose(a))),
    healthy_A,
  );

const isLoose = (d: DrainFault): boolean => d.faults.some((f) => f.mode.sometimes === true);
