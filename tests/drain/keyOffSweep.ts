import type { Circuit } from '../../src/circuit/circuit.ts';
import type { Finding } from '../../src/diagnose/finding.ts';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { type Suspect, suspectsOf } from '../../src/diagnose/suspects.ts';
import { weigh } from '../../src/diagnose/weigh.ts';
import { type DrainFault, drainFaults } from '../../src/drain/drainBelief.ts';
import { type DrainReading, quietReadings } from '../../src/drain/drainReadings.ts';
import { readingPhrase } from '../../src/drain/expected.ts';

/** What became of one fault: its place among the suspects after the quiet readings, and the share of the leading one. */
export type Swept = {
  readonly fault: string;
  readonly amperes: number;
  readonly place: number;
  readonly groupSize: number;
  readonly first: boolean;
  readonly contrary: boolean;
};

/** Suspects under which the readings are at most 20 times less likely than under the best stand in the first group: nothing read parts them. */
const notTold = Math.log(20);

/**
 * Puts one fault in, takes every reading that wakes nothing as an instrument shows it (1 mA at a cable, 0.1 mV over a
 * fuse, works or dead), and asks who is suspected, over all single faults of the circuit.
 */
export function swept(circuit: Circuit, of: DrainFault, predictor: Predictor): Swept {
  const findings = quietReadings(circuit).flatMap((r) => shown(r, of, predictor));
  const suspects: readonly Suspect[] = suspectsOf(weigh(predictor, singleHypotheses(circuit), findings), findings);
  const name = of.faults[0]!.mode;
  const place = suspects.findIndex((s) => s.faults[0]?.mode === name);
  const fit = (s: Suspect) => s.grades[0]!.weighed.fits.reduce((sum, x) => sum + x, 0);
  const best = Math.max(...suspects.map(fit));
  const group = suspects.filter((s) => fit(s) >= best - notTold);
  return {
    fault: of.faults[0]!.phrase,
    amperes: of.amperes,
    place,
    groupSize: group.length,
    first: group.includes(suspects[place]!),
    contrary: suspects[place]!.against.length > 0,
  };
}

function shown(r: DrainReading, of: DrainFault, predictor: Predictor): readonly Finding[] {
  // What comes and goes is read while it is there.
  const is = predictor.expected(of.faults, r)[0]!.is;
  const figure =
    is.of === 'amperes'
      ? `${Math.round(1000 * is.ampere)} mA`
      : is.of === 'volts'
        ? `${(Math.round(1e4 * Math.abs(is.volt ?? 0)) / 10).toFixed(1)} mV`
        : undefined;
  const phrase = readingPhrase(r, predictor.circuit);
  const said =
    is.of === 'load'
      ? phrase.replace('works or not', is.verdict === 'chatters' ? 'comes and goes' : is.verdict)
      : figure === undefined
        ? undefined
        : phrase.replace(/… m[AV]/, figure);
  if (said === undefined) return [];
  const read = readFinding(said, predictor.circuit);
  if (!read.ok) throw new Error(`${said}: ${read.problems[0]!.what}`);
  return read.value;
}

/** All faults that draw with the key out, or every n-th of them from a start. */
export function sweep(circuit: Circuit, every = 1, from = 0): readonly Swept[] {
  const predictor = new Predictor(circuit);
  return drainFaults(predictor)
    .filter((d, k) => k % every === from % every && d.inside < 1e-3)
    .map((d) => swept(circuit, d, predictor));
}
