import type { Circuit } from '../circuit/circuit.ts';
import type { Verdict } from '../circuit/part.ts';
import type { Scene } from '../circuit/scene.ts';
import { type Fault, worldsOf } from '../faults/fault.ts';
import { bareOhms } from '../solve/bareOhms.ts';
import { engineSeen, type SolveScene, solveScene } from '../solve/engine.ts';
import type { LoadSeen } from '../solve/loads.ts';
import { type Network, network, type PartChange } from '../solve/network.ts';
import { amperesInto, type OperatingPoint, type States, voltsAt } from '../solve/operatingPoint.ts';
import type { World } from '../solve/positionTable.ts';
import type { Finding, Observable } from './finding.ts';
import type { InWorld } from './likelihood.ts';

/** What one hypothesis says that one observable would be, in one of its worlds. */
export type Prediction =
  /** `watts`: the most that any of the load's own or faulty elements turns to heat where it should not. */
  | { readonly of: 'load'; readonly verdict: Verdict | 'chatters'; readonly watts: number }
  | { readonly of: 'engine'; readonly cranks: boolean; readonly slowly: boolean; readonly alive: boolean }
  /** `volt` null = tied to nothing. `wide`: the battery sags by an amount that the model knows badly. `spread`: half-distance to the next grade of the fault. */
  | { readonly of: 'volts'; readonly volt: number | null; readonly wide: boolean; readonly spread: number; readonly range: number }
  | { readonly of: 'amperes'; readonly ampere: number; readonly spread: number }
  | { readonly of: 'ohms'; readonly ohm: number }
  | { readonly of: 'outcome'; readonly chance: Readonly<Partial<Record<'no change' | 'cured' | 'changes', number>>> };

type KeyedWorld = World & { readonly key: string };
type Solved = { readonly at: OperatingPoint; readonly loads: readonly LoadSeen[] };

/**
 * Answers what any set of faults predicts in any scene, all from the one solver, each scene of each set solved once.
 * Where a change touches nothing that carries current or volts in the healthy scene, the healthy answer is given: a
 * resistance in series with no current, or between two points of the same potential, changes nothing, exactly.
 */
export class Predictor {
  readonly circuit: Circuit;
  readonly nominal_V: number;
  private readonly networks = new Map<string, Network>();
  /** Key of the changes -> key of the scene -> solution. Two looks instead of one long key: this is asked millions of times. */
  private readonly solved = new Map<string, Map<string, Solved>>();
  private readonly sceneKeys = new WeakMap<Scene, string>();
  private readonly worlds = new WeakMap<readonly Fault[], readonly KeyedWorld[]>();
  /** Scenes solved so far, for benchmarks. */
  solves = 0;

  constructor(circuit: Circuit) {
    this.circuit = circuit;
    const rest = this.solve([], { hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] }).at;
    this.nominal_V = Math.max(1, ...rest.nodeVolts.map(Math.abs));
  }

  /** The unchanged circuit, for what lies where. */
  get healthy(): Network {
    return this.network([], { hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] });
  }

  /** The predictions of a set of faults for a finding's observable in its scene, one per world. */
  predict(faults: readonly Fault[], scene: Scene, observable: Observable): readonly InWorld[] {
    if (observable.of === 'exchange' || observable.of === 'touch') return [{ share: 1, is: this.outcome(faults, observable) }];
    return this.worldsIn(faults, scene).map((w) => ({ share: w.share, is: this.inWorld(w, scene, observable) }));
  }

  /** Volts between two terminals in every world of a set of faults; undefined where one is tied to nothing. For sifting many readings. */
  volts(faults: readonly Fault[], scene: Scene, at: string, to: string): readonly (number | undefined)[] {
    return this.worldsIn(faults, scene).map((w) => voltsBetween(this.answer(w, scene).at, at, to) ?? undefined);
  }

  /** One scene of one set of changes, solved (or known). */
  solve(changes: readonly PartChange[], scene: Scene, states?: States): Solved {
    const telling = scene.swapped.length === 0 ? changes : changes.filter((c) => !scene.swapped.includes(c.part));
    return this.answer({ share: 1, changes: telling, key: changesKey(telling) }, scene, states);
  }

  private worldsIn(faults: readonly Fault[], scene: Scene): readonly KeyedWorld[] {
    const keyed = (changes: readonly PartChange[]) => ({ changes, key: changesKey(changes) });
    if (scene.swapped.length > 0)
      return worldsOf(faults.filter((f) => !scene.swapped.includes(f.part))).map(({ share, changes }) => ({ share, ...keyed(changes) }));
    const known = this.worlds.get(faults) ?? worldsOf(faults).map(({ share, changes }) => ({ share, ...keyed(changes) }));
    this.worlds.set(faults, known);
    return known;
  }

  private answer({ changes, key }: KeyedWorld, scene: Scene, states?: States): Solved {
    const scenes = this.solved.get(key) ?? new Map<string, Solved>();
    this.solved.set(key, scenes);
    let sceneKey = this.sceneKeys.get(scene);
    if (sceneKey === undefined) {
      sceneKey = JSON.stringify(scene);
      this.sceneKeys.set(scene, sceneKey);
    }
    if (states !== undefined) sceneKey += ' turning';
    const known = scenes.get(sceneKey);
    if (known) return known;
    const found = this.untouched(changes, scene, states) ?? this.fresh(changes, scene, states);
    scenes.set(sceneKey, found);
    return found;
  }

  private fresh(changes: readonly PartChange[], scene: Scene, states?: States): Solved {
    this.solves++;
    return solveScene(this.network(changes, scene), scene, states);
  }

  private network(changes: readonly PartChange[], scene: Scene): Network {
    const { apart, bridged } = scene;
    const key = `${changesKey(changes)} | ${apart} ${bridged}`;
    const known = this.networks.get(key) ?? network(this.circuit, changes, { apart, bridged, swapped: [] });
    this.networks.set(key, known);
    return known;
  }

  /** The healthy answer, when none of the changes can make itself felt in this scene. */
  private untouched(changes: readonly PartChange[], scene: Scene, states?: States): Solved | undefined {
    if (changes.length === 0 || changes.some(({ change }) => change.do !== 'series' && change.do !== 'bridge')) return undefined;
    const healthy = this.solve([], scene, states);
    const { at } = healthy;
    const silent = changes.every(({ part, change }) => {
      if (change.do === 'series')
        return Math.abs(at.amperes[at.network.branchOf.get(change.element === '' ? part : `${part}.${change.element}`) ?? -1] ?? 0) < 1e-12;
      if (change.do !== 'bridge') return false;
      const [a, b] = [voltsAt(at, change.from), voltsAt(at, change.to)];
      return a !== null && b !== null && a !== undefined && b !== undefined && Math.abs(a - b) < 1e-12;
    });
    return silent ? healthy : undefined;
  }

  private inWorld(world: KeyedWorld, scene: Scene, observable: Observable): Prediction {
    const { changes } = world;
    switch (observable.of) {
      case 'engine':
        return this.engine(changes, scene);
      case 'volts': {
        const loaded =
          observable.instrument === 'test lamp' ? [...changes, testLamp(this.circuit, observable.at, observable.to)] : undefined;
        const { at, loads } = loaded ? this.solve(loaded, scene) : this.answer(world, scene);
        const volt = voltsBetween(at, observable.at, observable.to);
        return {
          of: 'volts',
          volt,
          wide: loads.some((l) => l.id === this.circuit.engine?.crank && l.verdict !== 'dead'),
          spread: 0,
          range: this.nominal_V,
        };
      }
      case 'amperes':
        return { of: 'amperes', ampere: Math.abs(amperesInto(this.answer(world, scene).at, observable.at)), spread: 0 };
      case 'ohms': {
        const part = this.circuit.parts.get(observable.part)!;
        const { angle, setting } = observable;
        return {
          of: 'ohms',
          ohm: bareOhms(part, changes, observable.at, observable.to, {
            ...(angle !== undefined && { angle }),
            ...(setting !== undefined && { setting }),
          }),
        };
      }
      case 'load': {
        const { at, loads } = this.answer(world, scene);
        const seen = loads.find((l) => l.id === observable.load);
        return { of: 'load', verdict: seen?.verdict ?? 'dead', watts: wastedWatts(at, observable.load) };
      }
      default:
        throw new Error('an exchange or a touch has no scene to solve');
    }
  }

  private engine(changes: readonly PartChange[], scene: Scene): Prediction {
    const solve: SolveScene = (_net, asked, states) => this.solve(changes, asked, states);
    const seen = engineSeen(this.network(changes, scene), scene, solve) ?? { cranks: false, slowly: false, alive: false };
    return { of: 'engine', cranks: seen.cranks, slowly: seen.slowly, alive: seen.alive };
  }

  /** What exchanging or moving a part would do. Chances are estimates: new parts can be bad, and moving a plug can cure it for a while. */
  private outcome(faults: readonly Fault[], observable: Observable & { of: 'exchange' | 'touch' }): Prediction {
    const own = faults.filter((f) => f.part === observable.part);
    const beside = faults.some((f) => this.besides(observable.part).has(f.part));
    if (observable.of === 'touch') {
      const loose = [...own, ...(beside ? faults : [])].some((f) => f.mode.sometimes);
      const p = loose ? 0.75 : own.length > 0 || beside ? 0.15 : 0.03;
      return { of: 'outcome', chance: { changes: p, cured: p / 3, 'no change': 1 - p } };
    }
    const cured = own.length === 0 ? (beside ? 0.15 : 0.02) : own.length === faults.length ? 0.95 : 0.3;
    return { of: 'outcome', chance: { cured, changes: own.length > 0 ? 0.5 : 0.05, 'no change': 1 - cured } };
  }

  private readonly neighbours = new Map<string, ReadonlySet<string>>();
  /** Wires and plugs fastened to a part. */
  private besides(part: string): ReadonlySet<string> {
    const known = this.neighbours.get(part);
    if (known) return known;
    const owner = (terminal: string) => terminal.slice(0, Math.max(0, terminal.lastIndexOf('.')));
    const found = new Set(this.circuit.attached.filter(([, t]) => owner(t) === part).map(([end]) => owner(end)));
    this.neighbours.set(part, found);
    return found;
  }
}

/** Volts of the first above the second terminal; null when either is tied to nothing. */
function voltsBetween(at: OperatingPoint, first: string, second: string): number | null {
  const [a, b] = [voltsAt(at, first), voltsAt(at, second)];
  return a === null || b === null || a === undefined || b === undefined ? null : a - b;
}

/** Everything that tells one set of changes from another. */
const changesKey = (changes: readonly PartChange[]): string =>
  changes
    .map(({ part, change }) => `${part}:${JSON.stringify(change, (_k, v: unknown) => (v === Number.POSITIVE_INFINITY ? 'open' : v))}`)
    .join(';');

/** A 3 W filament test lamp between two points, Ω hot (12 V² / 3 W; facts of instruments, estimate). */
const testLamp = (circuit: Circuit, from: string, to: string): PartChange => ({
  part: [...circuit.parts.keys()][0]!,
  change: { do: 'bridge', from, to, ohm: 48 },
});

/** Heat in a part's contacts: the largest loss of any of its elements that is not the load itself, W. */
function wastedWatts(at: OperatingPoint, part: string): number {
  let most = 0;
  for (const [k, b] of at.network.branches.entries()) {
    if (b.part !== part) continue;
    const volts = at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset;
    most = Math.max(most, Math.abs(volts * at.amperes[k]!));
  }
  return most;
}

/** A finding whose seen value tells something about faults. */
export const tells = (finding: Finding): boolean => !('word' in finding.seen && finding.seen.word === 'not tried');
