import { describe, expect, test } from 'vitest';
import type { FaultMode } from '../../src/circuit/part.ts';
import type { Finding, Seen } from '../../src/diagnose/finding.ts';
import { sameSoFar } from '../../src/diagnose/groups.ts';
import { type Hypothesis, healthyShare, secondFault, singleHypotheses, together } from '../../src/diagnose/hypotheses.ts';
import { cannotStandTogether, explains } from '../../src/diagnose/standing.ts';
import { suspectsOf } from '../../src/diagnose/suspects.ts';
import type { Weighed } from '../../src/diagnose/weigh.ts';
import type { Fault } from '../../src/faults/fault.ts';
import { keyless } from '../circuit/phraseCircuit.ts';

const fault = (phrase: string, more: Partial<FaultMode> = {}): Fault => ({
  phrase,
  part: phrase.split(' ')[0]!,
  mode: { subject: phrase, words: '', text: `${phrase} is wrong`, weight: 1, source: 'made', changes: () => [], ...more },
  detail: 0,
});
/** A hypothesis with what each finding has under it; the score is that of even priors unless told. */
const weighed = (suspect: string, fits: readonly number[], prior = 1, more: Partial<FaultMode> = {}): Weighed => {
  const faults = suspect === '' ? [] : suspect.split(' + ').map((phrase) => fault(phrase, more));
  const logs = fits.map(Math.log);
  return { hypothesis: { faults, prior, suspect }, fits: logs, score: logs.reduce((a, b) => a + b, Math.log(prior)) };
};
const finding = (seen: Seen = { word: 'dead' }): Finding => ({
  seen,
  phrase: '',
  observable: { of: 'engine' },
  scene: {} as Finding['scene'],
});
const findings = (n: number) => Array.from({ length: n }, () => finding());

describe('suspects', () => {
  test('probabilities are prior times fit over all, and grades of one fault are one suspect with the sum of theirs', () => {
    // 0.5·0.8 : 0.25·0.4 : 0.25·0.4 = 4 : 1 : 1
    const list = [weighed('W2 bad', [0.4], 0.25), weighed('W1 open', [0.8], 0.5), weighed('W2 bad', [0.4], 0.25)];
    const suspects = suspectsOf(list, findings(1));
    expect(suspects.map((s) => s.text)).toEqual(['W1 open is wrong', 'W2 bad is wrong']);
    expect(suspects.map((s) => s.probability)).toEqual([expect.closeTo(4 / 6, 12), expect.closeTo(2 / 6, 12)]);
    expect(suspects[1]!.grades.map((g) => g.share)).toEqual([expect.closeTo(1 / 6, 12), expect.closeTo(1 / 6, 12)]);
  });

  test('of several grades the best stands for the suspect', () => {
    const [worse, better] = [weighed('W1 bad', [0.1]), weighed('W1 bad', [0.9])];
    const [suspect] = suspectsOf([worse, better], findings(1));
    expect(suspect!.faults).toBe(better.hypothesis.faults);
    expect(suspect!.grades.map((g) => g.weighed)).toEqual([better, worse]);
  });

  test('the healthy vehicle says so, two faults say both; as likely ones stand in order of their names', () => {
    const suspects = suspectsOf([weighed('W2 open', [0.5]), weighed('', [0.5]), weighed('W1 open + W3 open', [0.5])], findings(1));
    expect(suspects.map((s) => s.text)).toEqual([
      'nothing is wrong with the wiring',
      'W1 open is wrong; and W3 open is wrong',
      'W2 open is wrong',
    ]);
  });

  test('a finding speaks against a suspect under which it would be a slip, measured by whoever explains it best', () => {
    const suspects = suspectsOf([weighed('A x', [0.9, 0.05, 0.5]), weighed('B x', [0.1, 0.9, 0.5])], findings(3));
    const told = (name: string) => suspects.find((s) => s.faults[0]!.phrase === name)!;
    expect([told('A x').fits, told('A x').against]).toEqual([[0, 2], [1]]);
    expect([told('B x').fits, told('B x').against]).toEqual([[1, 2], [0]]);
  });

  test('no finding: all fit, none is against', () => {
    const [only] = suspectsOf([weighed('A x', [])], []);
    expect(only).toMatchObject({ probability: 1, fits: [], against: [] });
  });

  test('suspects that fit every finding alike are a group, however likely; one alone, and those that nobody would look at, are none', () => {
    const list = [
      weighed('A x', [0.9], 0.6),
      weighed('B x', [0.9], 0.3),
      weighed('C x', [0.2], 0.1),
      weighed('D x', [0.1], 1e-3),
      weighed('E x', [0.1], 1e-3),
    ];
    const suspects = suspectsOf(list, findings(1));
    const groups = sameSoFar(suspects).map((g) => g.map((k) => suspects[k]!.faults[0]!.phrase));
    expect(groups).toEqual([['A x', 'B x']]);
  });
});

describe('what cannot stand together', () => {
  const range = 14;
  test('a hypothesis explains a finding that it fits as well as the best does, not one that would be a slip', () => {
    const list = [weighed('A x', [0.9, 0.02]), weighed('B x', [0.3, 0.9])];
    const does = explains(list, findings(2), range);
    expect([does(list[0]!, 0), does(list[0]!, 1), does(list[1]!, 0), does(list[1]!, 1)]).toEqual([true, false, true, true]);
  });

  test('where even the best leaves a finding no more than a slip, nothing explains it', () => {
    const list = [weighed('A x', [0.05]), weighed('B x', [0.04])];
    const does = explains(list, findings(1), range);
    expect(list.map((w) => does(w, 0))).toEqual([false, false]);
    expect(cannotStandTogether(list, findings(1), range)).toEqual([[0]]);
  });

  test('two findings of which each has an explanation and both have none together', () => {
    const list = [weighed('A x', [0.9, 0.01, 0.9]), weighed('B x', [0.01, 0.9, 0.9])];
    expect(cannotStandTogether(list, findings(3), range)).toEqual([[0, 1]]);
    expect(cannotStandTogether([...list, weighed('C x', [0.8, 0.8, 0.8])], findings(3), range)).toEqual([]);
    expect(cannotStandTogether(list, [], range)).toEqual([]);
  });

  test('three that stand in pairs and not all at once; of very many findings only pairs are looked at', () => {
    const list = [weighed('A x', [0.9, 0.9, 0.01]), weighed('B x', [0.9, 0.01, 0.9]), weighed('C x', [0.01, 0.9, 0.9])];
    expect(cannotStandTogether(list, findings(3), range)).toEqual([[0, 1, 2]]);
    const with_ = (more: number) => list.map((w) => ({ ...w, fits: [...w.fits, ...Array.from({ length: more }, () => Math.log(0.9))] }));
    expect(cannotStandTogether(with_(11), findings(14), range)).toEqual([[0, 1, 2]]);
    expect(cannotStandTogether(with_(12), findings(15), range)).toEqual([]);
  });

  test('what comes and goes would explain nearly anything: it counts only when somebody saw something come and go', () => {
    const list = [weighed('A x', [0.9, 0.01]), weighed('B x', [0.01, 0.9]), weighed('T x', [0.9, 0.9], 1, { sometimes: true })];
    expect(cannotStandTogether(list, findings(2), range)).toEqual([[0, 1]]);
    for (const seen of [{ word: 'comes and goes' }, { outcome: 'changes' }] as const)
      expect(cannotStandTogether(list, [finding(), finding(seen)], range)).toEqual([]);
    for (const seen of [{ word: 'works' }, { outcome: 'cured' }, { engine: 'dies' }, { value: 3 }] as const)
      expect(cannotStandTogether(list, [finding(), finding(seen)], 1e9)).toEqual([[0, 1]]);
  });
});

describe('hypotheses', () => {
  const all = singleHypotheses(keyless);
  const priorOf = (list: readonly Hypothesis[], suspect: string) =>
    list.filter((h) => h.suspect === suspect).reduce((sum, h) => sum + h.prior, 0);

  test('priors of the healthy vehicle and of all single faults sum to one; the grades of one share evenly', () => {
    expect(all.reduce((sum, h) => sum + h.prior, 0)).toBeCloseTo(1, 12);
    expect(all[0]).toMatchObject({ faults: [], prior: healthyShare, suspect: '' });
    expect(all.slice(1).every((h) => h.faults.length === 1)).toBe(true);
    for (const suspect of new Set(all.map((h) => h.suspect))) {
      const grades = all.filter((h) => h.suspect === suspect);
      for (const g of grades) expect(g.prior).toBeCloseTo(grades[0]!.prior, 15);
    }
  });

  test('a weight of the user and a line of the history make a fault likelier by their factor, measured by any other', () => {
    const [one, other] = ['S1 open', 'H1 blown'].map((wanted) => all.find((h) => h.suspect === wanted)?.suspect ?? '');
    const [first, second] = one !== '' && other !== '' ? [one!, other!] : [all[1]!.suspect, all.at(-1)!.suspect];
    const odds = (list: readonly Hypothesis[]) => priorOf(list, first) / priorOf(list, second);
    expect(odds(singleHypotheses(keyless, [], { [first]: 5 })) / odds(all)).toBeCloseTo(5, 9);
    expect(priorOf(singleHypotheses(keyless, ['wet']), '')).toBe(healthyShare);
    expect(singleHypotheses(keyless, [], { [first]: 5 }).reduce((sum, h) => sum + h.prior, 0)).toBeCloseTo(1, 12);
  });

  test('what was predicted for a fault is found again: its set is the same one every time', () => {
    const again = singleHypotheses(keyless, ['wet']);
    for (const [k, h] of all.entries()) expect(again[k]!.faults).toBe(h.faults);
  });

  test('two at once: independent, at the odds of a second fault, one suspect in whichever order', () => {
    const [a, b, c] = all.slice(1, 4) as [Hypothesis, Hypothesis, Hypothesis];
    const both = together(a, b);
    expect(both.faults).toEqual([...a.faults, ...b.faults]);
    expect(both.prior).toBeCloseTo(a.prior * b.prior * secondFault, 15);
    expect(together(b, a).suspect).toBe(both.suspect);
    expect(together(together(a, b), c).suspect).toBe(together(a, together(c, b)).suspect);
    expect(both.suspect.split(' + ').sort()).toEqual([a.suspect, b.suspect].sort());
    expect(together(a, b).faults).toBe(both.faults);
  });
});
