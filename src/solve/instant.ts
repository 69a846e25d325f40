import type { BranchValues } from './branchValues.ts';
import type { Network } from './network.ts';
import { type Eliminated, markFloating, nodeVoltages } from './starMesh.ts';
import { Tangents } from './tangents.ts';
import { Workspace } from './workspace.ts';

/** A network solved for given numbers of its branches. */
export type Instant = {
  /** Per node against the reference. */
  readonly volts: Float64Array;
  /** 1 where a node has no path to the reference. */
  readonly floats: Uint8Array;
  /** Per branch, first end to second: siemens·volts + push. */
  readonly amperes: Float64Array;
  readonly siemens: Float64Array;
  readonly push: Float64Array;
  /** Largest mismatch of any node's sum of currents, or of any law, over the largest current. */
  readonly residual: number;
  readonly iterations: number;
};

/** Newton stops when every law is within this share of its own current, or as near as the digits of its voltage allow. */
const enough = 1e-11;
/** What rounding may cost of the largest voltage: some units of the last bit of a double. */
const rounding = 1e-14;
/** Corrections of the currents at most; one is enough nearly always, a second where 1 mΩ feeds 1 GΩ. */
const mostCorrections = 3;
/** What a law may miss of the largest current; above it Newton goes on though rounding might explain it. */
const solved = 1e-10;
/** What a law may miss of the current that its source would push through a short: a thousandth of its last bit, where nothing flows. */
const unseen = 1e-19;
/** More than ever needed (the worst met is in tests/solve/newton.test.ts): a bound for networks that have no solution. */
const mostIterations = 200;

/** Solves a network for the numbers of its branches, or finds that it has been. The numbers are left as they are. */
export function solveInstant(network: Network, values: BranchValues): Instant {
  const space = Workspace.for(network.pattern);
  const known = space.instants.find(values, network.offsets);
  if (known) return known;
  const instant = newton(network, space, { ...values, siemens: values.siemens.slice(), push: values.push.slice() });
  space.instants.keep(values, network.offsets, instant);
  return instant;
}

/**
 * Solves a network whose branches are resistances, sources, and laws that rise everywhere.
 *
 * Newton: every law is replaced by its tangent, the linear network is solved, and the laws are taken up where that
 * leads. The solution is the one lowest point of the co-content, a strictly convex function of the node voltages, and
 * a Newton step leads downhill. The whole step is taken while the co-content still falls at its end; otherwise it is
 * cut where the fall has eased but not turned (`shareOfStep`). Since the slopes of a law have bounds, either way the
 * co-content sinks by at least a fixed share of the squared mismatch; it has a lowest point, so the mismatch goes to
 * zero from any start, and near the end, where whole steps hold, its digits double with each. `residual` is measured
 * afterwards, on the currents as they are given.
 *
 * It always begins in the same way, so what comes out depends on the numbers alone: see `RememberedInstants`.
 * Cost of an iteration: each law once, the elimination steps that see a law, and two passes over the network.
 * Source: co-content: W. Millar, Phil. Mag. 42 (1951) 1150-1160 (from memory).
 */
function newton(network: Network, space: Workspace, { siemens, push, laws }: BranchValues): Instant {
  const { base, feeds, steadyFeeds } = space;
  const volts = new Float64Array(network.pattern.nodes);
  feedsOf(network, siemens, push, steadyFeeds);
  const tangents = new Tangents(network, laws, space.lines);
  tangents.begin(highestSource(network, siemens, push));
  for (let iterations = 1; ; iterations++) {
    feeds.set(steadyFeeds);
    tangents.putInto(siemens, push, feeds);
    const done = space.eliminated(siemens, iterations === 1 ? undefined : laws);
    nodeVoltages(done, feeds, volts);
    const { worst, met, climb } = tangents.compared(volts, enough, rounding * largestOf(volts));
    if (met || iterations === mostIterations) {
      const instant = finished(network, space, done, { siemens, push }, volts, worst, iterations);
      const enoughSolved = worst <= solved * measureOf(instant.amperes, space.steadyFeeds, push) || worst <= unseen * largestOf(push);
      if (enoughSolved || iterations === mostIterations) return instant;
    }
    if (climb <= 0 || iterations === 1) {
      // The first lines were no tangents: where they lead is only the place to begin.
      base.set(volts);
      tangents.takeUpEnd();
    } else {
      const share = shareOfStep(network, siemens, tangents, base, volts, climb);
      for (let n = 0; n < base.length; n++) base[n]! += share * (volts[n]! - base[n]!);
      tangents.takeUp(base);
    }
  }
}

/**
 * The share of a Newton step, in 0..1, after which the slope of the co-content is between a quarter of what it was and
 * zero: further along the step it turns. Along the step the tangents alone would give a slope that goes straight to
 * zero at its end; the laws add what they miss. Found by false position with a bisection in every third try.
 */
function shareOfStep(
  network: Network,
  siemens: Float64Array,
  tangents: Tangents,
  base: Float64Array,
  volts: Float64Array,
  climb: number,
): number {
  const { pairs } = network;
  let start = 0;
  for (let k = 0; k < siemens.length; k++) {
    const [a, b] = [pairs[2 * k]!, pairs[2 * k + 1]!];
    const step = volts[a]! - base[a]! - (volts[b]! - base[b]!);
    start -= siemens[k]! * step * step;
  }
  let [low, high, atLow, atHigh] = [0, 1, start, climb];
  for (let tries = 0; tries < 60; tries++) {
    const share = tries % 3 === 2 ? (low + high) / 2 : low + ((high - low) * atLow) / (atLow - atHigh);
    const slope = (1 - share) * start + tangents.climbAfter(share);
    if (slope > 0) [high, atHigh] = [share, slope];
    else if (slope < start / 4) [low, atLow] = [share, slope];
    else return share;
  }
  return high;
}

/** Largest voltage of any source, exact or not, V; 0 where there is none. */
function highestSource({ branches, offsets }: Network, siemens: Float64Array, push: Float64Array): number {
  let highest = largestOf(offsets);
  for (let k = 0; k < push.length; k++)
    if (push[k] !== 0 && branches[k]!.is === 'source') highest = Math.max(highest, Math.abs(push[k]! / siemens[k]!));
  return highest;
}

/** Current that the sources push into each node, and that resistances across an exact source draw from it. Laws come later. */
function feedsOf(network: Network, siemens: Float64Array, push: Float64Array, feeds: Float64Array): void {
  const { pairs, offsets } = network;
  feeds.fill(0);
  for (let k = 0; k < push.length; k++) {
    const flow = push[k]! + siemens[k]! * offsets[k]!;
    if (flow === 0) continue;
    feeds[pairs[2 * k]!]! -= flow;
    feeds[pairs[2 * k + 1]!]! += flow;
  }
}

/**
 * The currents, and how well they fit. A current through 1 mΩ between two points at 12 V has lost half its digits when
 * it is taken from their voltages. So what the currents leave over at every node is fed in once more, and the small
 * voltages that this makes, which have all their digits, correct the currents and the voltages.
 */
function finished(
  network: Network,
  space: Workspace,
  done: Eliminated,
  { siemens, push }: { siemens: Float64Array; push: Float64Array },
  solvedVolts: Float64Array,
  worst: number,
  iterations: number,
): Instant {
  const { pairs, offsets } = network;
  const volts = solvedVolts.slice();
  const amperes = new Float64Array(siemens.length);
  for (let k = 0; k < amperes.length; k++)
    amperes[k] = siemens[k] === 0 ? push[k]! : siemens[k]! * (volts[pairs[2 * k]!]! - volts[pairs[2 * k + 1]!]! + offsets[k]!) + push[k]!;
  const { feeds: left, correction: more } = space;
  leftOver(network, amperes, left);
  let largest = 0;
  for (let round = 0; round < mostCorrections; round++) {
    nodeVoltages(done, left, more);
    for (let k = 0; k < amperes.length; k++) amperes[k]! += siemens[k]! * (more[pairs[2 * k]!]! - more[pairs[2 * k + 1]!]!);
    for (let n = 0; n < volts.length; n++) volts[n]! += more[n]!;
    leftOver(network, amperes, left);
    largest = measureOf(amperes, space.steadyFeeds, push);
    if (largestOf(left) <= solved * largest) break;
  }
  const floats = new Uint8Array(volts.length);
  markFloating(done, floats);
  const missed = worst <= unseen * largestOf(push) ? 0 : worst;
  const residual = largest === 0 ? 0 : Math.max(largestOf(left), missed) / largest;
  return { volts, floats, amperes, siemens, push, residual, iterations };
}

/**
 * The current by which mismatches are measured. Where nothing flows, as in a vehicle at rest without any draw, the
 * currents are what rounding leaves of the feeds and of the laws' own sources, and no measure for themselves.
 */
function measureOf(amperes: Float64Array, feeds: Float64Array, push: Float64Array): number {
  return Math.max(largestOf(amperes), rounding * Math.max(largestOf(feeds), largestOf(push)));
}

/** What the branches bring to each node and do not take away again. */
function leftOver({ pairs }: Network, amperes: Float64Array, left: Float64Array): void {
  left.fill(0);
  for (let k = 0; k < amperes.length; k++) {
    left[pairs[2 * k]!]! -= amperes[k]!;
    left[pairs[2 * k + 1]!]! += amperes[k]!;
  }
}

function largestOf(numbers: Float64Array): number {
  let largest = 0;
  for (let k = 0; k < numbers.length; k++) largest = Math.max(largest, Math.abs(numbers[k]!));
  return largest;
}
