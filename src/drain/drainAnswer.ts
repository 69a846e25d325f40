import type { Circuit } from '../circuit/circuit.ts';
import type { Scene } from '../circuit/scene.ts';
import { sceneText } from '../circuit/scenePhrase.ts';
import type { Finding } from '../diagnose/finding.ts';
import { readFinding } from '../diagnose/findingPhrase.ts';
import { Predictor } from '../diagnose/predict.ts';
import type { Suspect } from '../diagnose/suspects.ts';
import { changesOf, type Fault } from '../faults/fault.ts';
import { type BatteryTime, batteryTime } from './batteryTime.ts';
import { type DrainCase, drainCase, drainFaults, drawingModes } from './drainBelief.ts';
import { batteryCable } from './drainReadings.ts';
import { ampereText } from './expected.ts';
import { type FuseDrop, fuseDrops } from './fuseDrops.ts';
import { type HypothesisView, hypothesisView } from './hypothesis.ts';
import { type KeyOff, keyOff, keyOffScene } from './keyOff.ts';
import { beaters, drawers, type Match, sleepers } from './log/matches.ts';
import type { Log } from './log/readLog.ts';
import { type Beat, type Level, type LogStep, type Steps, stepsIn } from './log/steps.ts';
import { drainPlan, type PlanStep } from './plan.ts';
import { type Act, procedure } from './procedure.ts';
import { type Staircase, staircase } from './staircase.ts';

export type DrainQuestion = {
  /** Faults that are in. */
  readonly faults?: readonly Fault[];
  /** What is thought to be in. */
  readonly suspect?: Fault;
  readonly findings?: readonly Finding[];
  readonly log?: Log;
  /** As the vehicle was left; the key out and everything at rest unless told. */
  readonly scene?: Scene;
};

/** What was logged, with what in the circuit could have made it. */
export type LogAnswer = Steps & {
  readonly log: Log;
  readonly matched: readonly { readonly step: LogStep; readonly by: readonly Match[] }[];
  readonly beating: readonly { readonly beat: Beat; readonly by: readonly Match[] }[];
  /** The level at which it ends, and what would draw what is over the healthy current there. */
  readonly end: Level | undefined;
  readonly over: readonly Match[];
  /** The last level as a finding, if the log ran long enough for everything to sleep and nothing comes and goes. */
  readonly finding: Finding | undefined;
};

export type DrainAnswer = {
  readonly circuit: Circuit;
  readonly keyOff: KeyOff;
  readonly healthy: KeyOff;
  readonly battery: BatteryTime | undefined;
  readonly healthyBattery: BatteryTime | undefined;
  /** The same with the hypothesis, and with the current that was read. */
  readonly supposedBattery: BatteryTime | undefined;
  readonly readBattery: BatteryTime | undefined;
  /** Current read at the battery cable, A. */
  readonly read_A: number | undefined;
  readonly stairs: Staircase | undefined;
  readonly hypothesis: HypothesisView | undefined;
  readonly verdict: DrainCase['verdict'];
  readonly suspects: readonly Suspect[];
  /** Those of them that draw current with the key out, and the healthy vehicle. */
  readonly drawing: readonly Suspect[];
  readonly procedure: readonly Act[];
  readonly plan: readonly PlanStep[];
  readonly fuseDrops: readonly FuseDrop[];
  readonly log: LogAnswer | undefined;
  readonly findings: readonly Finding[];
};

/** Rounded steps in the log that are matched to parts, at most. */
const mostSteps = 40;

/**
 * Everything that is said of a drain, from one solver.
 *
 * @param predictor  kept by the caller from one reading to the next
 */
export function drainAnswer(circuit: Circuit, asked: DrainQuestion = {}, predictor: Predictor = new Predictor(circuit)): DrainAnswer {
  const { faults = [], suspect, log } = asked;
  const scene = asked.scene ?? keyOffScene(circuit);
  const healthy = keyOff(circuit, [], scene);
  const now = faults.length === 0 ? healthy : keyOff(circuit, changesOf(faults), scene);
  const stairs = staircase(circuit, faults);
  const logged = log && logAnswer(log, stairs, healthy, predictor);
  const told = asked.findings ?? [];
  const findings = logged?.finding && !told.some(isCableReading(circuit)) ? [...told, logged.finding] : told;
  const stands = drainCase(circuit, findings, {}, predictor);
  const { suspects } = stands;
  const draws = drawingModes(predictor);
  const hypothesis = suspect && hypothesisView(circuit, suspect, findings, predictor, stands, { faults, scene });
  const supposed = suspect ? [...faults.filter((f) => f.mode !== suspect.mode), suspect] : faults;
  const reading = findings.find(isCableReading(circuit));
  const read_A = reading && 'value' in reading.seen ? Math.abs(reading.seen.value) : undefined;
  return {
    circuit,
    keyOff: now,
    healthy,
    battery: batteryTime(circuit, now.amperes, now.inside, now.at),
    healthyBattery: batteryTime(circuit, healthy.amperes, healthy.inside, healthy.at),
    supposedBattery: hypothesis && batteryTime(circuit, hypothesis.predicts.amperes, hypothesis.predicts.inside),
    readBattery: read_A === undefined ? undefined : batteryTime(circuit, read_A),
    read_A,
    stairs,
    hypothesis,
    verdict: stands.verdict,
    suspects,
    drawing: suspects.filter((s) => s.faults.length === 0 || s.faults.some((f) => draws.has(f.mode))),
    procedure: procedure(stairs, (stairs?.treads.length ?? 0) > 1 || healthy.amperes > 0.002),
    plan: withDeciding(drainPlan(predictor, suspects, findings, supposed), hypothesis?.predicts.decides, circuit),
    fuseDrops: fuseDrops(circuit, changesOf(supposed)),
    log: logged,
    findings,
  };
}

/**
 * The reading that decides goes before all others of its sort, whatever its worth a minute: it says yes or no, the rest only
 * which. The whole current stays in front, and what is unplugged or taken off stays behind what wakes nothing.
 */
function withDeciding(plan: readonly PlanStep[], decides: PlanStep | undefined, circuit: Circuit): readonly PlanStep[] {
  if (decides === undefined) return plan;
  const step = plan.find((s) => s.reading === decides.reading) ?? decides;
  const others = plan.filter((s) => s !== step);
  const wakes = (s: PlanStep) => s.way === 'unplug' || s.way === 'bench';
  const isWhole = ({ of: { scene, observable } }: PlanStep) => isCableReading(circuit)({ scene, observable });
  const first = others.findIndex((s) => (wakes(step) ? wakes(s) : !isWhole(s)));
  const at = first < 0 ? others.length : isWhole(step) ? 0 : first;
  return [...others.slice(0, at), step, ...others.slice(at)];
}

/** The whole current with nothing taken off. */
const isCableReading = (circuit: Circuit) => (f: Pick<Finding, 'scene' | 'observable'>) =>
  f.observable.of === 'amperes' && f.observable.at === batteryCable(circuit) && f.scene.apart.length === 0 && f.scene.engine === 'stopped';

function logAnswer(log: Log, stairs: Staircase | undefined, healthy: KeyOff, predictor: Predictor): LogAnswer {
  const steps = stepsIn(log);
  const faults = drainFaults(predictor);
  const end = steps.levels.at(-1);
  const over = end === undefined ? 0 : end.amperes - healthy.amperes;
  const matched = steps.steps.slice(0, mostSteps).map((step) => {
    const asleep = sleepers(step, stairs);
    return { step, by: asleep.length > 0 ? asleep : drawers(Math.abs(step.to_A - step.from_A), faults, healthy.amperes) };
  });
  const beating = steps.beats.map((beat) => ({ beat, by: beaters(beat, faults, healthy.amperes) }));
  const slept = end !== undefined && end.to_s >= (stairs?.asleepAfter_s ?? 0);
  return {
    ...steps,
    log,
    matched,
    beating,
    end,
    over: over > 0.005 ? drawers(over, faults, healthy.amperes) : [],
    finding: slept && beating.length === 0 ? findingOf(end.amperes, predictor.circuit) : undefined,
  };
}

function findingOf(amperes: number, circuit: Circuit): Finding | undefined {
  const cable = batteryCable(circuit);
  if (cable === undefined) return undefined;
  const read = readFinding(`${sceneText(keyOffScene(circuit), circuit)}: ${ampereText(Math.abs(amperes))} at ${cable}`, circuit);
  return read.ok ? read.value[0] : undefined;
}
