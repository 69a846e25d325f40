import { expect, test } from 'vitest';
import { fastened, outcomeChances } from '../../src/diagnose/exchange.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { bench, sound } from '../circuit/phraseCircuit.ts';

const faults = (...phrases: readonly string[]) => phrases.map((p) => sound(readFault(p, bench)));
const exchanged = (part: string, ...phrases: readonly string[]) =>
  outcomeChances(bench, faults(...phrases), { of: 'exchange', part, how: 'replaced' });
const touched = (part: string, ...phrases: readonly string[]) =>
  outcomeChances(bench, faults(...phrases), { of: 'touch', part, how: 'wiggled' });

test('what is moved with a part: its wires and the plugs at their other ends, nothing that works by itself', () => {
  expect([...fastened(bench, 'S1')].sort()).toEqual(
    [...bench.attached.filter(([, at]) => at.startsWith('S1.')).map(([end]) => end.slice(0, end.lastIndexOf('.'))), 'X2'].sort(),
  );
  // F3 feeds K1 and E8: a relay, a lamp and the fuse itself are not moved with each other, the splice at its feed is.
  expect([...fastened(bench, 'F3')].sort()).toEqual(['J1', 'W10', 'W11', 'W4']);
  // A wire that ends at the body itself has no plug there; a splice is not fastened to itself.
  expect([...fastened(bench, 'G1')].sort()).toEqual(['J1', 'W1', 'W2']);
  expect([...fastened(bench, 'J1')].sort()).toEqual(['W1', 'W3a', 'W4', 'X2']);
  expect(fastened(bench, 'S1')).toBe(fastened(bench, 'S1'));
});

test('cured or not, one of both: the chances of an exchange add up', () => {
  for (const set of [[], ['S1.30-15 open'], ['W5a open'], ['F3 blown'], ['S1.30-15 open', 'F3 blown']]) {
    const { cured, 'no change': none, changes } = exchanged('S1', ...set);
    expect(cured! + none!).toBeCloseTo(1, 12);
    for (const p of [cured, none, changes]) expect(p! > 0 && p! < 1).toBe(true);
  }
});

test('an exchange cures what is in the part, now and then what hangs on it, hardly ever what is elsewhere', () => {
  const [inIt, loose, beside, elsewhere] = [
    exchanged('S1', 'S1.30-15 open'),
    exchanged('S1', 'W7 comes and goes 30 %'),
    exchanged('S1', 'W7 open'),
    exchanged('S1', 'F3 blown'),
  ].map((o) => o.cured!);
  expect(inIt!).toBeGreaterThan(loose!);
  expect(loose!).toBeGreaterThan(beside!);
  expect(beside!).toBeGreaterThan(elsewhere!);
  expect(exchanged('S1').cured).toBe(elsewhere);
  // One loose joint among them is enough.
  expect(exchanged('S1', 'W7 comes and goes 30 %', 'W5b open').cured).toBe(loose);
});

test('of two faults an exchange of one seldom cures, but often changes something', () => {
  const [one, both, two] = [
    exchanged('S1', 'S1.30-15 open'),
    exchanged('S1', 'S1.30-15 open', 'S1.30-75 open'),
    exchanged('S1', 'S1.30-15 open', 'F3 blown'),
  ];
  expect(both).toEqual(one);
  expect(two.cured!).toBeLessThan(one.cured!);
  expect(two.changes!).toBeGreaterThan(one.changes!);
  expect(exchanged('S1', 'F3 blown').changes).toBe(one.changes);
});

test('moving a part changes what is loose in it or on it, seldom what is firm there, hardly ever what is elsewhere; to cure is rarer', () => {
  const [loose, besideLoose, firm, besideFirm, elsewhere, looseElsewhere] = [
    touched('S1', 'S1.30-15 comes and goes 30 %'),
    touched('S1', 'W7 comes and goes 30 %'),
    touched('S1', 'S1.30-15 open'),
    touched('S1', 'W7 open'),
    touched('S1', 'F3 blown'),
    touched('S1', 'W11 comes and goes 30 %'),
  ];
  expect(besideLoose).toEqual(loose);
  expect(besideFirm).toEqual(firm);
  expect(looseElsewhere).toEqual(elsewhere);
  expect(loose!.changes!).toBeGreaterThan(firm!.changes!);
  expect(firm!.changes!).toBeGreaterThan(elsewhere!.changes!);
  for (const o of [loose, firm, elsewhere]) {
    expect(o!.changes! + o!['no change']!).toBeCloseTo(1, 12);
    expect(o!.cured!).toBeLessThan(o!.changes!);
  }
});
