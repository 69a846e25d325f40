import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { capacityLeft, freezesAt, ownLossFactor } from '../../src/drain/batteryTables.ts';
import { batteryTime, chargeAfter } from '../../src/drain/batteryTime.ts';
import { keyOff } from '../../src/drain/keyOff.ts';
import { noStartCharge } from '../../src/drain/noStart.ts';
import { ampereHoursOfReserve, hoursByRule, usableByRule } from '../../src/drain/shopRule.ts';
import { vehicle } from '../circuits/vehicle.ts';

const bulletin = "a maker's bulletin on key-off drain (secondary): Ah = 0.6 x reserve minutes, 40 % of it to no start";
/** Tolerances: half a unit of the last printed digit of days. */
const worked = [
  { source: bulletin, reserve: 100, mA: 30, days: 33, half: 0.5 },
  { source: bulletin, reserve: 100, mA: 50, days: 20, half: 0.5 },
  { source: bulletin, reserve: 100, mA: 100, days: 10, half: 0.5 },
  { source: bulletin, reserve: 100, mA: 250, days: 4, half: 0.5 },
  { source: bulletin, reserve: 100, mA: 500, days: 2, half: 0.5 },
  { source: bulletin, reserve: 100, mA: 1000, days: 1, half: 0.5 },
  { source: bulletin, reserve: 60, mA: 50, days: 12, half: 0.5 },
  { source: bulletin, reserve: 80, mA: 50, days: 16, half: 0.5 },
  { source: bulletin, reserve: 120, mA: 50, days: 24, half: 0.5 },
  { source: `${bulletin}; arithmetic`, reserve: 90, mA: 40, days: 22.5, half: 0.05 },
];
test.each(worked)('reserve $reserve min at $mA mA: $days days ($source)', ({ reserve, mA, days, half }) => {
  expect(Math.abs(hoursByRule(ampereHoursOfReserve(reserve), mA / 1000) / 24 - days)).toBeLessThanOrEqual(half);
});

/** 60 Ah of which 60 % is used. Source: common practice, no source; one digit printed. */
test.each([
  { mA: 50, days: 30, half: 0.5 },
  { mA: 300, days: 5, half: 0.5 },
  { mA: 1000, days: 1.5, half: 0.05 },
])('60 Ah, 60 % used, $mA mA: $days days', ({ mA, days, half }) => {
  expect(Math.abs(hoursByRule(60, mA / 1000, 1, usableByRule.most) / 24 - days)).toBeLessThanOrEqual(half);
});

test('two cars, 100 mA, 8 days parked, reserve 130 and 95 min: 19.2 Ah of 31.2 and 22.8, both still start (a battery trade text, secondary; arithmetic)', () => {
  const used = 0.1 * 8 * 24;
  const [first, second] = [130, 95].map((reserve) => usableByRule.least * ampereHoursOfReserve(reserve));
  expect(used).toBeCloseTo(19.2, 6);
  expect(first).toBeCloseTo(31.2, 6);
  expect(second).toBeCloseTo(22.8, 6);
  expect(used / second!).toBeCloseTo(0.84, 2);
  expect(hoursByRule(ampereHoursOfReserve(95), 0.1)).toBeGreaterThan(8 * 24);
});

test.each([
  { celsius: 25, from: 1, to: 1 },
  { celsius: 0, from: 0.8, to: 0.85 },
  { celsius: -18, from: 0.5, to: 0.6 },
])('capacity left at $celsius °C is between $from and $to (from memory)', ({ celsius, from, to }) => {
  expect(capacityLeft(celsius)).toBeGreaterThanOrEqual(from);
  expect(capacityLeft(celsius)).toBeLessThanOrEqual(to);
});

/** Gravity 1.225 at three quarters, 1.190 at half, 1.155 at a quarter (makers' charts, secondary); freezing −37 °C at 1.225, −15 °C at 1.150 (army manuals, secondary). Tolerance: one printed degree, and straight lines between the rows. */
test.each([
  { charge: 1, celsius: -59, within: 1 },
  { charge: 0.75, celsius: -37, within: 1 },
  { charge: 0.21, celsius: -15, within: 1.5 },
])('a battery at charge $charge freezes at about $celsius °C', ({ charge, celsius, within }) => {
  expect(Math.abs(freezesAt(charge) - celsius)).toBeLessThanOrEqual(within);
});

test('own loss doubles every 10 K and halves the other way (common practice, no source)', () => {
  expect(ownLossFactor(20)).toBe(1);
  expect(ownLossFactor(30)).toBe(2);
  expect(ownLossFactor(0)).toBe(0.25);
});

/** Vehicles whose starter is sized to the battery as in a car; an outboard's is small for it, and the board has a lamp for one. */
const cars = ['light-van', 'saloon', 'diesel-estate', 'truck', 'modern-saloon', 'tractor'] as const;
test.each(cars)(
  '%s: a shop rule for the charge at no start, 60 or 40 % left, lies between a good battery and one that only just passes a load test',
  (name) => {
    const circuit = { ...vehicle(name).circuit, ambient: 25 };
    const [good, tired] = [noStartCharge(circuit), noStartCharge(circuit, true)];
    expect(tired).toBeGreaterThan(good);
    const rules = [1 - usableByRule.least, 1 - usableByRule.most];
    expect(rules.some((left) => left >= good && left <= tired)).toBe(true);
  },
);

describe('laws of battery time', () => {
  const { circuit } = vehicle('light-van');
  const at = new Map([20, -10].map((ambient) => [ambient, { ...circuit, ambient }]));
  const time = (amperes: number, ambient = 20, inside = 0) => batteryTime(at.get(ambient)!, amperes, inside)!;

  test('a larger draw never lasts longer; spread holds the figure', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 10, noNaN: true }), fc.double({ min: 1, max: 5, noNaN: true }), (a, more) => {
        const [one, two] = [time(a), time(a * more)];
        return two.hoursToNoStart <= one.hoursToNoStart && one.spread[0] <= one.hoursToNoStart && one.hoursToNoStart <= one.spread[1];
      }),
      { numRuns: 60, seed: 20261125 },
    );
  });

  test('what is drawn and lost adds up to the ampere-hours that may be taken', () => {
    const t = time(0.3);
    expect(t.hoursToNoStart * (t.amperes + t.own_A)).toBeCloseTo(t.ampereHours, 9);
    expect(chargeAfter(t, t.hoursToNoStart).charge).toBeCloseTo(t.charge - t.ampereHours / (t.capacity_Ah * capacityLeft(20)), 9);
    const after = chargeAfter(t, 24);
    expect(after.from).toBeLessThan(after.charge);
    expect(after.to).toBeGreaterThan(after.charge);
  });

  test('cold shortens it though the own loss falls: at −10 °C the cranking model asks for more charge', () => {
    expect(noStartCharge({ ...circuit, ambient: -10 })).toBeGreaterThan(noStartCharge({ ...circuit, ambient: 20 }));
    expect(time(0.3, -10).hoursToNoStart).toBeLessThan(time(0.3, 20).hoursToNoStart);
    expect(time(0.3, -10).own_A).toBeLessThan(time(0.3, 20).own_A);
  });

  test('a leak over the battery itself counts although no clamp sees it', () => {
    expect(time(0.01, 20, 0.1).hoursToNoStart).toBeLessThan(0.2 * time(0.01).hoursToNoStart);
  });
});

test('two batteries in series each give the whole current: the truck has 170 Ah, not 340', () => {
  const { circuit } = vehicle('truck');
  const { amperes, inside, at } = keyOff(circuit);
  expect(batteryTime(circuit, amperes, inside, at)!.capacity_Ah).toBe(170);
});

test('a circuit without a battery has no battery time', () => {
  const { circuit } = vehicle('light-van');
  const parts = new Map([...circuit.parts].filter(([, p]) => p.kind.store === undefined));
  expect(batteryTime({ ...circuit, parts }, 0.1)).toBeUndefined();
});
