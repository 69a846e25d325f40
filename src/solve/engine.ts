import type { Engine } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import type { Scene } from '../circuit/scene.ts';
import { type LoadSeen, loadsAt } from './loads.ts';
import type { Network } from './network.ts';
import { type OperatingPoint, operatingPoint, type States } from './operatingPoint.ts';
import { turnedSwitch } from './turnedSwitch.ts';

/** What the engine can do in a scene. */
export type EngineSeen = {
  /** The starter turns it. */
  readonly cranks: boolean;
  /** The starter turns, but is weak. */
  readonly slowly: boolean;
  /** Spark and fuel would keep a turning engine alive. */
  readonly alive: boolean;
  /** The starter's when it cranks, else the weakest of spark and fuel. */
  readonly volts: number;
  readonly amperes: number;
};

/** Solves one scene of a network; callers that ask for many pass one that remembers. */
export type SolveScene = (
  net: Network,
  scene: Scene,
  states?: States,
) => { readonly at: OperatingPoint; readonly loads: readonly LoadSeen[] };

export const solveScene: SolveScene = (net, scene, states) => {
  const at = operatingPoint(net, scene, states);
  return { at, loads: loadsAt(at) };
};

/**
 * Whether the starter turns in a scene and whether spark and fuel are there. Spark and fuel are asked of a vehicle
 * whose engine turns: cranking where the starter turns, else running, with the alternator excited as it was where the
 * engine ran. So a backfeed that keeps the ignition alive with the key off shows up by itself.
 */
export function engineSeen(net: Network, scene: Scene, solve: SolveScene = solveScene): EngineSeen | undefined {
  const spec = net.circuit.engine;
  if (!spec) return undefined;
  const starter = solve(net, { ...scene, engine: 'stopped' }).loads.find((l) => l.id === spec.crank);
  const cranks = starter !== undefined && starter.verdict !== 'dead';
  // What a turning engine would find costs more scenes, and who asks about the starter alone never needs it.
  let known: Omit<EngineSeen, 'cranks' | 'slowly'> | undefined;
  const turned = () => {
    known ??= whileTurning(net, scene, solve, cranks ? starter : undefined);
    return known;
  };
  return {
    cranks,
    slowly: cranks && starter.verdict === 'weak',
    get alive() {
      return turned().alive;
    },
    get volts() {
      return turned().volts;
    },
    get amperes() {
      return turned().amperes;
    },
  };
}

function whileTurning(
  net: Network,
  scene: Scene,
  solve: SolveScene,
  cranking: LoadSeen | undefined,
): Omit<EngineSeen, 'cranks' | 'slowly'> {
  const spec = net.circuit.engine!;
  const turning: Scene = { ...scene, engine: cranking ? 'cranking' : 'running' };
  const { loads } = solve(net, turning, cranking ? undefined : runningStates(net, scene, solve));
  const needed = [...spec.spark, ...spec.fuel].flatMap((id) => loads.find((l) => l.id === id) ?? []);
  const weakest = needed.reduce<LoadSeen | undefined>((low, l) => (low === undefined || l.volts < low.volts ? l : low), undefined);
  const { volts, amperes } = cranking ?? weakest ?? { volts: 0, amperes: 0 };
  return { alive: keepsRunning(spec, loads), volts, amperes };
}

/**
 * What the engine does next in a scene: it cranks while the starter turns it, fires when spark and fuel come, runs on
 * while they are there, and stops when either goes. A cranked engine whose spark comes only as the key goes back
 * catches then, from its own swing.
 */
export function engineNext(net: Network, scene: Scene): Scene['engine'] {
  const seen = engineSeen(net, scene);
  if (!seen) return 'stopped';
  if (seen.alive && (seen.cranks || scene.engine !== 'stopped')) return 'running';
  return seen.cranks ? 'cranking' : 'stopped';
}

/**
 * Whether a turning engine keeps running: everything for spark and fuel is there and nothing stops it. An engine for
 * which nothing electrical is named, a diesel with a pull knob, keeps running in every key position.
 */
export function keepsRunning(spec: Engine, loads: readonly LoadSeen[]): boolean {
  const isDead = (id: string) => (loads.find((l) => l.id === id)?.verdict ?? 'dead') === 'dead';
  return [...spec.spark, ...spec.fuel].every((id) => !isDead(id)) && (spec.stops ?? []).every(isDead);
}

/** States of a running engine at the detent where spark and fuel are fed best and the starter is out, the later one of equals: an excited alternator stays so when the key moves on. */
function runningStates(net: Network, scene: Scene, solve: SolveScene): States | undefined {
  const spec = net.circuit.engine!;
  const lock = turnedSwitch(net);
  if (!lock) return undefined;
  let best: { states: States; alive: number } | undefined;
  for (const { angle, detent } of keyStretches(lock.model)) {
    if (!detent) continue;
    const { at, loads } = solve(net, { ...scene, key: { angle, came: 'up', in: true }, engine: 'running' });
    const verdict = (id: string) => loads.find((l) => l.id === id)?.verdict ?? 'works';
    const alive = [...spec.spark, ...spec.fuel].filter((id) => verdict(id) !== 'dead').length;
    if (verdict(spec.crank) === 'dead' && alive >= (best?.alive ?? 0)) best = { states: at.states, alive };
  }
  return best?.states;
}
