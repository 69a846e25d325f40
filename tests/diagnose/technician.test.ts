import { expect, test, vi } from 'vitest';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { played } from '../../src/diagnose/technician.ts';
import { libraryCircuit, seededRandom } from './library.ts';

vi.setConfig({ testTimeout: 240_000 });

/** A seeded share of the sweep (`npm run sweep` takes all): no slips, so that every steady fault has to be found. */
test('bench board: a simulated technician isolates seeded steady faults to their group', () => {
  const circuit = libraryCircuit('bench-board');
  const predictor = new Predictor(circuit);
  const steady = singleHypotheses(circuit).filter(
    (h) => h.faults.length === 1 && !h.faults[0]!.mode.sometimes && /open|blown|stuck/.test(h.suspect),
  );
  const random = seededRandom(7);
  const chosen = Array.from({ length: 5 }, () => steady[Math.floor(random() * steady.length)]!);
  const searches = chosen.map((truth) => ({ truth: truth.suspect, search: played(predictor, truth, random, { slips: 0 }) }));
  const noticed = searches.filter((s) => s.search !== undefined);
  expect(noticed.length).toBeGreaterThan(2);
  expect(noticed.filter((s) => !s.search!.isolated).map((s) => s.truth)).toEqual([]);
});
