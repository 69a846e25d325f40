import { describe, expect, test } from 'vitest';
import { Predictor } from '../../src/diagnose/predict.ts';
import type { Candidate } from '../../src/diagnose/testable.ts';
import { whyTogether } from '../../src/diagnose/together.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { bench, sound } from '../circuit/phraseCircuit.ts';

const predictor = new Predictor(bench);
const of = (phrase: string): Candidate => ({ fault: sound(readFault(phrase, bench)) }) as unknown as Candidate;
const healthy = { fault: undefined } as unknown as Candidate;
const told = (read: readonly (readonly Candidate[])[], best = read, touched: readonly Candidate[] = []) =>
  whyTogether(predictor, read, best, new Set(touched)).map((t) => `${t.reason}: ${t.faults.join(', ')}`);

describe('why faults stay together', () => {
  test('those that no reading tells from the sound vehicle, and those that differ by too little', () => {
    const [a, b, c] = [of('W9 0.5 Ω'), of('W10 0.5 Ω'), of('W11 0.5 Ω')];
    expect(told([[healthy, a, b, c]], undefined, [b])).toEqual(['no-change: W9 0.5 Ω, W11 0.5 Ω', 'too-small: W10 0.5 Ω']);
    expect(told([[healthy]])).toEqual([]);
  });
  test('one that is alone needs no reason', () => {
    expect(told([[of('F3 blown')], [of('W9 open')]])).toEqual([]);
  });
  test('those that places out of reach would part', () => {
    const [a, b] = [of('W9 open'), of('M3 open')];
    expect(told([[a, b]], [[a], [b]])).toEqual(['out-of-reach: W9 open, M3 open']);
  });
  test('two ways of one part; a fuse and what blew it; what lies on one run; what only works alike', () => {
    expect(told([[of('M3 open'), of('M3 comes and goes 40 %')]])).toEqual(['one-part: M3 open, M3 comes and goes 40 %']);
    expect(told([[of('F3 blown'), of('W4 short to ground')]])).toEqual(['blown: F3 blown, W4 short to ground']);
    expect(told([[of('W9 open'), of('M3 open')]])).toEqual(['one-run: W9 open, M3 open']);
    // W8 and W9 meet at R3 only, which is no run: 1 Ω lies between them.
    expect(told([[of('W9 open'), of('T1 open')]])).toEqual(['same-effect: W9 open, T1 open']);
    // From one to the next: all of a run belong together, in whichever order they come.
    expect(told([[of('M3 open'), of('R3 open'), of('W9 open')]])).toEqual(['one-run: M3 open, R3 open, W9 open']);
    // Ground joins everything, and is no neighbourhood.
    expect(told([[of('E8 open'), of('T1 open')]])).toEqual(['same-effect: E8 open, T1 open']);
  });
  test('larger groups come first', () => {
    const three = [of('M3 open'), of('R3 open'), of('W9 open')];
    const two = [of('F3 blown'), of('W4 short to ground')];
    expect(told([two, three]).map((t) => t.split(':')[0])).toEqual(['one-run', 'blown']);
  });
});
