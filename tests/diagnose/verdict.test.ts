import { describe, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnose/diagnose.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import type { Suspect } from '../../src/diagnose/suspects.ts';
import { caseVerdict, placeName } from '../../src/diagnose/verdict.ts';
import { bench } from '../circuit/phraseCircuit.ts';
import { saw } from './library.ts';

const predictor = new Predictor(bench);
const told = (...said: readonly string[]) => {
  const { verdict, suspects } = diagnose(bench, saw(bench, ...said), {}, predictor);
  return { ...verdict, first: suspects[0]!.faults.map((f) => f.phrase).join(' + '), believed: suspects[0]!.probability };
};

describe('where the search stands', () => {
  test('with nothing said every part is possible; with nothing amiss no fault is needed or none leads', () => {
    expect(told()).toMatchObject({ state: 'open', text: 'Every part is still possible. One finding narrows it.' });
    const text = 'So far nothing that was said needs a fault.';
    expect(told('ON: T1 works')).toMatchObject({ state: 'open', text, proof: [], unexplained: [] });
    expect(told('ON: T1 works, H4 works, M3 works, E1 works')).toMatchObject({ state: 'open', text, unexplained: [] });
  });
  test('what no figure needs by itself several may need together', () => {
    const low = (...points: readonly string[]) => told('ON: T1 works', ...points.map((p) => `ON: 11.7 V at ${p}`)).text;
    expect(low('S1.15')).toBe('So far nothing that was said needs a fault.');
    expect(low('S1.15', 'R1.1', 'S1.75', 'S3.30')).toMatch(/^Most likely /);
    const right = told('ON: T1 works', ...['S1.15', 'R1.1', 'S1.75', 'S3.30'].map((p) => `ON: 12.5 V at ${p}`));
    expect(right.text).toBe('So far nothing that was said needs a fault.');
  });
  test('a complaint alone leaves it open, and so does one place among many that work alike', () => {
    const one = told('ON: T1 dead');
    expect(one).toMatchObject({ state: 'open', text: expect.stringMatching(/^Most likely R1 open: \d+ %\.$/) });
    expect(one.believed).toBeLessThan(0.2);
  });
  test('both sides of the part make it likely; only belief of its place counts, not that of all others', () => {
    const read = told('ON: T1 dead', 'ON: 12.6 V at R1.1', 'ON: 0 V at R1.2');
    expect(read.first).toBe('R1 open');
    expect(read.believed).toBeGreaterThan(0.5);
    const one = told('ON: T1 dead', 'ON: 12.6 V at R1.1');
    expect(one.state).toBe('open');
    expect(one.believed).toBeLessThan(read.believed);
  });
  test('read off the vehicle it is proved, and the proof names what would have been otherwise', () => {
    const proved = told('ON: T1 dead', 'ON: 12.6 V at R1.1', 'ON: 0 V at R1.2', 'off the vehicle: R1.1 to R1.2 open');
    expect(proved).toMatchObject({ state: 'proved', first: 'R1 open', unexplained: [] });
    expect(proved.proof.length).toBeGreaterThan(0);
    // Looks prove nothing: the complaint is no part of the proof.
    expect(proved.proof).not.toContain(0);
    expect(proved.text).toMatch(/^R1 open\. Proved by "/);
  });
  test('another complaint that it does not explain opens the search again', () => {
    expect(told('ON: T1 dead', 'ON: 12.6 V at R1.1', 'ON: 0 V at R1.2', 'off the vehicle: R1.1 to R1.2 open', 'ON: M3 dead').state).toBe(
      'open',
    );
  });
  test('what cannot stand together is said, and what nothing explains', () => {
    expect(told('ON: T1 dead', 'ON: T1 works')).toMatchObject({ state: 'contradiction', unexplained: [0, 1], proof: [] });
    expect(told('ON: T1 dead', 'ON: T1 works').text).toMatch(/^"ON: T1 dead" and "ON: T1 works" do not stand together/);
    expect(told('ON: 40 V at R1.1')).toMatchObject({ state: 'nothing-fits', unexplained: [0], proof: [] });
  });
});

test('a place is what fails there, in one order whatever leads', () => {
  const suspect = (...subjects: readonly string[]) => ({ faults: subjects.map((subject) => ({ mode: { subject } })) }) as never;
  expect(placeName(suspect('W9', 'F3'))).toBe('F3 + W9');
  expect(placeName(suspect('F3', 'W9'))).toBe('F3 + W9');
  expect(placeName(suspect())).toBe('');
});

describe('by suspects that are given', () => {
  const findings = saw(bench, 'ON: T1 works', 'ON: 12.4 V at R1.1');
  const made = (subject: string, probability: number, fits: readonly number[], against: readonly number[] = []): Suspect =>
    ({
      faults: subject === '' ? [] : [{ phrase: `${subject} open`, part: subject, mode: { subject } }],
      probability,
      against,
      fits: [],
      text: subject,
      grades: [
        {
          share: probability,
          weighed: { fits, score: fits.reduce((a, b) => a + b, 0), hypothesis: { faults: [], prior: 1, suspect: subject } },
        },
      ],
    }) as never;
  const stateOf = (suspects: readonly Suspect[]) => {
    const { state, text } = caseVerdict(suspects, findings, [], [], []);
    return `${state}: ${text}`;
  };
  test('a sound vehicle is neither pinned nor proved, however surely it is believed', () => {
    expect(stateOf([made('', 0.99, [0, 0]), made('R1', 0.01, [-9, -9])])).toBe('open: So far nothing that was said needs a fault.');
  });
  test('without a sound vehicle among them a fault is needed, and with one that the findings speak against', () => {
    expect(stateOf([made('R1', 0.6, [0, 0]), made('W9', 0.4, [0, 0])])).toBe('open: Most likely R1 open: 60 %.');
    expect(stateOf([made('R1', 0.6, [0, 0]), made('', 0.4, [0, 0])])).toBe('open: So far nothing that was said needs a fault.');
    expect(stateOf([made('R1', 0.6, [0, 0]), made('', 0.4, [0, 0], [1])])).toBe('open: Most likely R1 open: 60 %.');
    // A hundred times as likely under the leader, all findings together.
    expect(stateOf([made('R1', 0.6, [0, 0]), made('', 0.4, [-2.3, -2.2])])).toBe('open: So far nothing that was said needs a fault.');
    expect(stateOf([made('R1', 0.6, [0, 0]), made('', 0.4, [-2.3, -2.4])])).toBe('open: Most likely R1 open: 60 %.');
  });
  test('a place that holds 95 % of the belief is pinned, all of its ways to be bad together', () => {
    expect(stateOf([made('R1', 0.5, [0, 0]), made('R1', 0.45, [0, 0]), made('W9', 0.05, [0, 0])])).toMatch(
      /^pinned: R1 open: 95 %\. Not proved yet/,
    );
    expect(stateOf([made('R1', 0.5, [0, 0]), made('R1', 0.44, [0, 0]), made('W9', 0.06, [0, 0])])).toMatch(/^open: /);
  });
  test('nothing said, or nobody suspected, leaves every part possible', () => {
    expect(caseVerdict([made('R1', 1, [])], [], [], [], []).text).toBe('Every part is still possible. One finding narrows it.');
    expect(stateOf([])).toBe('open: Every part is still possible. One finding narrows it.');
  });
});
