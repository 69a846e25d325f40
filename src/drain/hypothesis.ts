import type { Circuit } from '../circuit/circuit.ts';
import { diagnose } from '../diagnose/diagnose.ts';
import type { Finding } from '../diagnose/finding.ts';
import { Predictor } from '../diagnose/predict.ts';
import type { Suspect } from '../diagnose/suspects.ts';
import { changesOf, type Fault } from '../faults/fault.ts';
import { loadsAt } from '../solve/loads.ts';
import { positionTable } from '../solve/positionTable.ts';
import { keyOff } from './keyOff.ts';

export type Standing = 'proved' | 'rejected' | 'open';

/** What is thought to draw the current, and how it stands. */
export type HypothesisView = {
  readonly fault: string;
  readonly predicts: {
    /** Key-off current, and what the healthy vehicle draws, A. */
    readonly amperes: number;
    readonly healthy: number;
    /** Loads that live with the key out though they ought not. */
    readonly alive: readonly string[];
    /** Key positions in which the driver would notice something. */
    readonly positions: readonly string[];
  };
  readonly verdict: Standing;
  readonly probability: number;
  readonly rivals: readonly { readonly faults: readonly string[]; readonly probability: number; readonly text: string }[];
  readonly text: string;
};

/** Under this a hypothesis is rejected (estimate: one in a hundred). */
const rejectedUnder = 0.01;

/**
 * Holds a hypothesis against what was read. Suspects are ranked by the diagnosis engine, over all faults of the
 * circuit, so that a rival nobody thought of can win.
 *
 * @param findings at least one for a verdict; none leaves it open with what it predicts
 */
export function hypothesisView(
  circuit: Circuit,
  fault: Fault,
  findings: readonly Finding[],
  predictor = new Predictor(circuit),
): HypothesisView {
  const supposed = changesOf([fault]);
  const now = keyOff(circuit, supposed);
  const sound = keyOff(circuit);
  const wasAlive = new Set(loadsAt(sound.at).flatMap((l) => (l.verdict === 'dead' ? [] : [l.id])));
  const alive = loadsAt(now.at).flatMap((l) => (l.verdict !== 'dead' && !wasAlive.has(l.id) ? [l.id] : []));
  const table = positionTable(circuit, [{ share: 1, changes: supposed }]);
  const positions = table.positions
    .map((p) => p.name)
    .filter((name) => table.rows.some((r) => r.cells.some((c) => c.position === name && c.changed)));
  const predicts = { amperes: now.amperes, healthy: sound.amperes, alive, positions };
  if (findings.length === 0)
    return {
      fault: fault.phrase,
      predicts,
      verdict: 'open',
      probability: 0,
      rivals: [],
      text: `${fault.phrase} is not tested yet: no reading was entered.`,
    };
  const { suspects, verdict: state } = diagnose(circuit, findings, {}, predictor);
  const own = suspects.filter((s) => s.faults.length === 1 && s.faults[0]!.mode === fault.mode);
  const probability = own.reduce((sum, s) => sum + s.probability, 0);
  const rivals = suspects.filter((s) => !own.includes(s) && s.probability >= 0.01).slice(0, 8);
  const verdict: Standing =
    state.state === 'proved' && suspects[0] === own[0] ? 'proved' : probability < rejectedUnder ? 'rejected' : 'open';
  return {
    fault: fault.phrase,
    predicts,
    verdict,
    probability,
    rivals: rivals.map(rivalOf),
    text: said(fault, verdict, probability, rivals),
  };
}

const rivalOf = (s: Suspect) => ({ faults: s.faults.map((f) => f.phrase), probability: s.probability, text: s.text });

function said(fault: Fault, verdict: Standing, probability: number, rivals: readonly Suspect[]): string {
  const share = `${Math.round(100 * probability)} %`;
  if (verdict === 'proved') return `${fault.phrase} is proved: the readings would have been otherwise for anything else.`;
  const first = rivals[0];
  const name =
    first === undefined
      ? 'nothing that Detent models'
      : first.faults.length === 0
        ? 'a healthy vehicle'
        : first.faults.map((f) => f.phrase).join(' and ');
  if (verdict === 'rejected') return `${fault.phrase} is rejected: the readings speak for ${name} instead.`;
  return first === undefined
    ? `${fault.phrase} stands at ${share}.`
    : `${fault.phrase} stands at ${share}; ${name} fits as well. Another reading parts them.`;
}
