import type { Circuit } from '../circuit/circuit.ts';
import type { Scene } from '../circuit/scene.ts';
import { wordsJoined } from '../circuit/wordsJoined.ts';
import type { Finding } from '../diagnose/finding.ts';
import { likelihood } from '../diagnose/likelihood.ts';
import { Predictor } from '../diagnose/predict.ts';
import type { Suspect } from '../diagnose/suspects.ts';
import { changesOf, type Fault, worldsOf } from '../faults/fault.ts';
import { type LoadSeen, loadsAt } from '../solve/loads.ts';
import { type PositionTable, positionTable } from '../solve/positionTable.ts';
import { type DrainCase, drainCase, drawingModes } from './drainBelief.ts';
import { expectText } from './expected.ts';
import { type Draw, keyOff } from './keyOff.ts';
import { decidingReading, type PlanStep } from './plan.ts';
import { warmParts } from './warm.ts';

/** What the hypothesis is held in: faults that are in besides, and the scene with the key out. */
type Around = { readonly faults?: readonly Fault[]; readonly scene?: Scene };

export type Standing = 'proved' | 'rejected' | 'open';

/** What a hypothesis says that one would find. */
export type Predicted = {
  /** Key-off current, and what the vehicle draws without it, A; round inside the battery, A. */
  readonly amperes: number;
  readonly without: number;
  readonly inside: number;
  /** Who would draw it, beside what each draws without it. */
  readonly draws: readonly Draw[];
  /** Loads that live with the key out though they ought not. */
  readonly alive: readonly LoadSeen[];
  /** Parts that feel warm to the hand though they ought not, with the heat in them, W. */
  readonly warm: readonly { readonly part: string; readonly watts: number }[];
  /** Key positions in which the driver would notice something. */
  readonly positions: readonly string[];
  readonly table: PositionTable;
  /** The reading that decides; absent once it is decided, and when none within reach parts it from its rivals. */
  readonly decides: PlanStep | undefined;
};

/** What is thought to draw the current, and how it stands. */
export type HypothesisView = {
  readonly fault: string;
  readonly says: string;
  readonly predicts: Predicted;
  readonly verdict: Standing;
  /** Belief in it, alone or with another fault. */
  readonly probability: number;
  readonly rivals: readonly { readonly faults: readonly string[]; readonly probability: number; readonly text: string }[];
  /** Each finding beside what the hypothesis says of it. */
  readonly held: readonly { readonly phrase: string; readonly predicted: string; readonly fits: boolean }[];
  readonly text: string;
};

/** Under this belief a hypothesis is rejected, if the readings speak against it (estimate: one in a hundred). */
const rejectedUnder = 0.01;
/** ... and are this much less likely under it than under the best rival. */
const rejectedOdds = Math.log(20);
/** A finding that is this much less likely than under the best suspect speaks against it, as in the search for a cause. */
const contrary = Math.log(0.12);
/** A further fault costs this in the comparison. */
const oneMore = Math.log(0.03);
const mostRivals = 8;
/** A rival under this share is not named. */
const leastRival = 0.005;

/**
 * Holds a hypothesis against what was read. Suspects are ranked by the diagnosis engine, over all faults of the
 * circuit, so that a rival nobody thought of can win. Rare is not rejected: it takes a reading that speaks against it.
 *
 * @param findings at least one for a verdict; none leaves it open with what it predicts
 * @param around   faults that are known to be in besides, and how the vehicle was left
 */
export function hypothesisView(
  circuit: Circuit,
  fault: Fault,
  findings: readonly Finding[],
  predictor: Predictor = new Predictor(circuit),
  known: DrainCase = drainCase(circuit, findings, {}, predictor),
  around: Around = {},
): HypothesisView {
  const { suspects } = known;
  const own = suspects.filter((s) => isIn(s, fault));
  const probability = own.reduce((sum, s) => sum + s.probability, 0);
  const draws = drawingModes(predictor);
  const fits = (s: Suspect) => s.faults.length === 0 || s.faults.some((f) => draws.has(f.mode));
  const others = suspects.filter((s) => !own.includes(s) && s.probability >= leastRival && fits(s));
  const besides = (around.faults ?? []).filter((f) => f.mode !== fault.mode);
  const all = [...besides, fault];
  const exact = known.findings.map((f) => Math.log(likelihood(f.seen, predictor.predict(all, f))));
  const verdict = standing(known, own, probability, exact);
  const rivals = others.slice(0, mostRivals);
  const held = known.findings.map((f, k) => ({
    phrase: f.phrase,
    predicted: [...new Set(predictor.predict(all, f).map(({ is }) => expectText(is)))].filter((t) => t !== '').join(' or '),
    fits: Math.max(exact[k]!, ...own.map((s) => s.grades[0]!.weighed.fits[k]!)) - bestFit(suspects, k) > contrary,
  }));
  return {
    fault: fault.phrase,
    says: fault.mode.text,
    predicts: {
      ...predictedBy(circuit, all, besides, around.scene),
      decides: verdict !== 'open' ? undefined : decidingReading(predictor, suspects, findings, fault),
    },
    verdict,
    probability,
    rivals: rivals.map((s) => ({ faults: s.faults.map((f) => f.phrase), probability: s.probability, text: s.text })),
    held,
    text: said(fault, verdict, probability, rivals, held, findings.length),
  };
}

const isIn = (s: Suspect, fault: Fault): boolean => s.faults.some((f) => f.mode === fault.mode);

/** How likely a finding is under the suspect that explains it best, ln. */
const bestFit = (suspects: readonly Suspect[], k: number): number =>
  suspects.reduce((most, s) => Math.max(most, s.grades[0]!.weighed.fits[k]!), Number.NEGATIVE_INFINITY);

/** @param exact ln likelihood of each finding under the hypothesis as it was said, with its own figure */
function standing({ verdict, suspects }: DrainCase, own: readonly Suspect[], probability: number, exact: readonly number[]): Standing {
  if (!verdict) return 'open';
  if (verdict.state === 'proved' && suspects[0] !== undefined && suspects[0] === own[0]) return 'proved';
  const best = (list: readonly Suspect[]) =>
    Math.max(
      Number.NEGATIVE_INFINITY,
      ...list.map((s) => s.grades[0]!.weighed.fits.reduce((sum, x) => sum + x, 0) + oneMore * Math.max(0, s.faults.length - 1)),
    );
  const its = Math.max(
    best(own),
    exact.reduce((sum, x) => sum + x, 0),
  );
  return probability < rejectedUnder && best(suspects) - its > rejectedOdds ? 'rejected' : 'open';
}

/** @param besides what of these is in without the hypothesis */
function predictedBy(circuit: Circuit, faults: readonly Fault[], besides: readonly Fault[], scene?: Scene): Omit<Predicted, 'decides'> {
  const now = keyOff(circuit, changesOf(faults), scene);
  const sound = keyOff(circuit, changesOf(besides), scene);
  const before = new Map(loadsAt(sound.at).map((l) => [l.id, l.verdict]));
  const alive = loadsAt(now.at).filter((l) => l.verdict !== 'dead' && before.get(l.id) === 'dead');
  const table = positionTable(circuit, worldsOf(faults));
  const positions = table.positions
    .map((p) => p.name)
    .filter((name) => table.rows.some((r) => r.cells.some((c) => c.position === name && c.changed)));
  const warm = warmParts(now.at, sound.at);
  return { amperes: now.amperes, without: sound.amperes, inside: now.inside, draws: now.draws, alive, warm, positions, table };
}

const nameOf = ({ faults }: Suspect): string => (faults.length === 0 ? 'a healthy vehicle' : faults.map((f) => f.phrase).join(' and '));

function said(
  fault: Fault,
  verdict: Standing,
  probability: number,
  rivals: readonly Suspect[],
  held: HypothesisView['held'],
  findings: number,
): string {
  if (findings === 0) return `${fault.phrase} is not tested yet: no reading was entered.`;
  const share = probability > 0.995 ? 'over 99 %' : `${Math.round(100 * probability)} %`;
  // A place can be proved while the way in which it is bad is not: what is listed as fitting is not ruled out beside it.
  const except = rivals.map((s) => `${nameOf(s)} (${Math.max(1, Math.round(100 * s.probability))} %)`);
  if (verdict === 'proved')
    return `${fault.phrase} is proved: the readings would have been otherwise for anything else${except.length > 0 ? ` except ${wordsJoined(except)}` : ''}.`;
  const first = rivals[0];
  const name = first === undefined ? 'nothing that this circuit holds' : nameOf(first);
  if (verdict === 'rejected') {
    const against = held.filter((h) => !h.fits).map((h) => `"${h.phrase}" would have been ${h.predicted}`);
    return `${fault.phrase} is rejected${against.length > 0 ? `: with it, ${wordsJoined(against)}` : ''}. The readings speak for ${name}.`;
  }
  return first === undefined
    ? `${fault.phrase} stands at ${share}.`
    : `${fault.phrase} stands at ${share}; ${name} fits as well (${Math.round(100 * first.probability)} %). Another reading parts them.`;
}
