import { describe, expect, test } from 'vitest';
import { playView } from '../../src/report/playView.ts';
import { bench, smallVehicle } from './benches.ts';
import { told } from './told.ts';

const hazard = (capacity: number) =>
  bench(
    'S1: { kind: switch }\nK1: { kind: flasher }\nE1: { kind: lamp, power: 21 W }\nE2: { kind: lamp, power: 21 W }',
    'G1.+ -> K1.49\nK1.49a -> S1.1\nS1.2 -> E1.1\nE1.2 -> ground\nS1.2 -> E2.1\nE2.2 -> ground',
    `{ kind: battery, capacity: ${capacity} Ah, self-discharge: 0 % }`,
  );

describe('what repeats in a long wait is leapt over', () => {
  test('and costs the battery what it costs beat by beat', () => {
    // Touching something every 50 s keeps the play from leaping.
    const beats = told(hazard(5), Array.from({ length: 12 }, () => 'S1 on 50 s').join(', '));
    const leapt = told(hazard(5), 'S1 on 600 s');
    expect(leapt.played.samples.length).toBeLessThan(beats.played.samples.length / 3);
    expect(Math.abs(leapt.charge() - beats.charge())).toBeLessThan(leapt.played.bound + beats.played.bound);
    expect(Math.abs(leapt.charge() - beats.charge())).toBeLessThan(0.01 * (1 - beats.charge()));
  });
  test('hazard lamps left on: the battery ends flat when half their current has drawn it', () => {
    const { times, charge, played } = told(hazard(5), 'S1 on 6 h');
    // Two lamps of 21 W at 12.3 V draw 3.55 A half of the time, and the inrush of each beat a little: 5 Ah in 2.8 h (computed).
    expect(times('G1', 'flat')[0]! / 3600).toBeGreaterThan(2.4);
    expect(times('G1', 'flat')[0]! / 3600).toBeLessThan(2.9);
    expect(charge()).toBe(0);
    expect(played.chatters).toBeUndefined();
  });
  test('the strip says of its loads that they come and go, and of others what they do', () => {
    const { played } = told(hazard(50), 'S1 on 1 h');
    const view = playView(played, hazard(50));
    const comes = view.loads.find((l) => l.id === 'E1')!.stretches.filter((s) => s.word === 'chatters');
    expect(comes.reduce((sum, s) => sum + s.to - s.from, 0)).toBeGreaterThan(3000);
  });
  test('a contact that opens hot goes on so for hours, with the coil', () => {
    const { played, charge, is } = told(smallVehicle('2 W'), 'ON 30 h', ['S1.30-15 opens hot 3 A']);
    expect(played.chatters).toBeUndefined();
    expect(charge()).toBe(0);
    expect(is('T1')).toBe('dead');
    expect(played.events.length).toBeLessThan(2000);
  });
  test('nothing is leapt over within the first minute', () => {
    const { played } = told(hazard(50), 'S1 on 55 s');
    expect(played.samples.some((s) => s.roundFrom !== undefined)).toBe(false);
  });
});
