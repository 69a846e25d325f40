import type { Circuit } from '../circuit/circuit.ts';
import type { Scene } from '../circuit/scene.ts';
import { type Fault, worldsOf } from '../faults/fault.ts';
import { between, classVolts, lamp_W } from '../solve/instruments.ts';
import { type Network, network, type PartChange } from '../solve/network.ts';
import { type OperatingPoint, operatingPoint, type States } from '../solve/operatingPoint.ts';
import { Recent } from './recent.ts';
import { type Moved, ScreenedScene } from './screen.ts';
import { splitJoints } from './splitJoints.ts';

/** The vehicle with a set of faults in it, as it stands for a share of the time. */
export type Vehicle = {
  /** Counts up; tells one set of changes from another. */
  readonly id: number;
  readonly share: number;
  readonly changes: readonly PartChange[];
  readonly key: string;
  /** By what is unplugged and bridged. */
  readonly nets: Map<string, Network>;
  /** The same without wires that are moved to another terminal, which an update sees as changed branches. */
  readonly unmoved: Map<string, Network>;
  /** Scenes solved whole. */
  readonly known: Map<number, OperatingPoint>;
};

/** Quick answers kept while one vehicle is asked after another; a vehicle is asked a handful of scenes at a time. */
const mostRecent = 256;
/** What the answers of those who are believed may take, bytes: they are asked the same scenes again at the next step. */
const most_bytes = 48e6;
/** Factored scenes kept, and what they may take, bytes: each holds up to nodes² numbers, and as many for its first instant (estimates). */
const mostScenes = 160;
const leastScenes = 8;
const scenes_bytes = 4e8;
/** More scenes than any session meets, and more sets of states that a solve begins in; vehicle, states and scene make one number. */
const mostScenesMet = 1 << 16;
const mostIds = 2 ** 30;
/** Vehicles found again by what is changed in them. */
const mostVehicles = 5_000;

/**
 * Every vehicle that a diagnosis thinks of, and what its voltages are in any scene: by a quick update of the factored
 * healthy vehicle where that works out, by the whole solver where it does not.
 */
export class Vehicles {
  readonly circuit: Circuit;
  /** Scenes solved whole, answered by an update, and answered by the healthy vehicle itself; for benchmarks. */
  readonly counts = { whole: 0, updated: 0, same: 0 };
  private readonly sets = new WeakMap<readonly Fault[], readonly Vehicle[]>();
  private readonly fewer = new Map<string, readonly Fault[]>();
  private readonly byKey = new Map<string, Vehicle>();
  private readonly scenes = new Map<number, ScreenedScene>();
  private readonly sceneIds = new WeakMap<Scene, number>();
  private readonly numbered = new Map<string, number>();
  private readonly starts = new WeakMap<States, number>();
  private readonly startTexts = new Map<string, number>();
  private met = 0;
  private made = 0;
  private readonly recent = new Map<number, OperatingPoint>();
  private readonly believed: Recent<OperatingPoint>;
  private whole = false;
  private lamp_ohm: number | undefined;

  constructor(circuit: Circuit) {
    this.circuit = splitJoints(circuit);
    const { pattern, branches } = network(this.circuit);
    // Volts and a mark for each node, amperes for each branch, and what is changed.
    this.believed = new Recent(most_bytes / (9 * pattern.nodes + 8 * branches.length + 1000));
  }

  get healthy(): Vehicle {
    return this.vehicle([], '', 1);
  }

  /** The worlds of a set of faults; parts that were exchanged for known good ones bring no faults of their own. */
  of(faults: readonly Fault[], swapped: readonly string[] = []): readonly Vehicle[] {
    if (swapped.some((id) => faults.some((f) => f.part === id))) {
      const left = faults.filter((f) => !swapped.includes(f.part));
      const key = left.map((f) => f.phrase).join(' + ');
      const kept = this.fewer.get(key) ?? left;
      this.fewer.set(key, kept);
      return this.of(kept);
    }
    const known = this.sets.get(faults);
    if (known) return known;
    const worlds = worldsOf(faults).map(({ share, changes }) => this.vehicle(changes, changesKey(changes), share));
    this.sets.set(faults, worlds);
    return worlds;
  }

  /** With a filament test lamp between two points, as ohmic as at its rated volts: through a joint that hardly conducts a cold one would draw more. */
  withTestLamp(vehicle: Vehicle, at: string, to: string, scene: Scene): Vehicle {
    const { circuit } = this;
    this.lamp_ohm ??= classVolts({ circuit, changes: [], scene }) ** 2 / lamp_W;
    const changes = [...vehicle.changes, between({ circuit, scene }, at, to, this.lamp_ohm)];
    return this.vehicle(changes, changesKey(changes), vehicle.share);
  }

  network(vehicle: Vehicle, { apart, bridged }: Scene): Network {
    const key = apart.length + bridged.length === 0 ? '' : `${apart} ${bridged}`;
    const known = vehicle.nets.get(key);
    if (known) return known;
    const made = network(this.circuit, vehicle.changes, { apart, bridged, swapped: [] });
    vehicle.nets.set(key, made);
    return made;
  }

  get areSolvedWhole(): boolean {
    return this.whole;
  }

  /** Runs something with every answer solved whole. */
  exactly<T>(run: () => T): T {
    this.whole = true;
    try {
      return run();
    } finally {
      this.whole = false;
    }
  }

  /** @param states  where relays and the like begin; what is missing begins as never switched on */
  answer(vehicle: Vehicle, scene: Scene, states?: States): OperatingPoint {
    const id = this.idOf(scene, states);
    const known = vehicle.known.get(id);
    if (known) return known;
    if (vehicle.changes.length === 0) return this.solveWhole(vehicle, scene, states, id);
    if (this.whole) {
      // Where nothing makes itself felt the healthy numbers are exact already.
      const factored = this.factored(scene, states, id);
      const quick = this.quick(vehicle, scene, factored);
      return quick?.nodeVolts === factored.at.nodeVolts && quick.floats === factored.at.floats
        ? quick
        : this.solveWhole(vehicle, scene, states, id);
    }
    const passing = vehicle.id * mostIds + id;
    const recent = this.recent.get(passing) ?? this.believed.get(passing);
    if (recent) return recent;
    const factored = this.factored(scene, states, id);
    const quick = this.quick(vehicle, scene, factored);
    if (!quick) return this.solveWhole(vehicle, scene, states, id);
    if (quick.nodeVolts === factored.at.nodeVolts) this.counts.same++;
    else this.counts.updated++;
    if (this.recent.size >= mostRecent) this.recent.clear();
    this.recent.set(passing, quick);
    return quick;
  }

  /** The same of a vehicle that is believed in: it will be asked again. */
  answerOfBelieved(vehicle: Vehicle, scene: Scene): OperatingPoint {
    const at = this.answer(vehicle, scene);
    if (!this.whole) this.believed.set(vehicle.id * mostIds + this.idOf(scene), at);
    return at;
  }

  private quick(vehicle: Vehicle, scene: Scene, factored: ScreenedScene): OperatingPoint | undefined {
    const moves = vehicle.changes.filter((c) => c.change.do === 'attach');
    if (moves.length === 0) return factored.solved(this.network(vehicle, scene));
    const { apart, bridged } = scene;
    const setup = `${apart} ${bridged}`;
    const net =
      vehicle.unmoved.get(setup) ??
      network(
        this.circuit,
        vehicle.changes.filter((c) => !moves.includes(c)),
        { apart, bridged, swapped: [] },
      );
    vehicle.unmoved.set(setup, net);
    const moved: Moved[] = [];
    for (const { part, change } of moves) {
      const [branch, node] = [net.branchOf.get(part), change.do === 'attach' ? net.nodeOf.get(change.terminal) : undefined];
      if (branch === undefined || node === undefined || change.do !== 'attach') return undefined;
      moved.push({ branch, end: change.end, node });
    }
    return factored.solved(net, moved);
  }

  /** A number for each scene, and for each set of states in which its solve begins. */
  idOf(scene: Scene, states?: States): number {
    let id = this.sceneIds.get(scene);
    if (id === undefined) {
      const text = JSON.stringify(scene);
      id = this.numbered.get(text) ?? ++this.met;
      this.numbered.set(text, id);
      this.sceneIds.set(scene, id);
    }
    return states === undefined ? id : id + mostScenesMet * this.startOf(states);
  }

  /** A number for each set of states, by what they say: many vehicles come to rest in the same. */
  private startOf(states: States): number {
    const known = this.starts.get(states);
    if (known !== undefined) return known;
    const text = JSON.stringify([...states]);
    const own = this.startTexts.get(text) ?? this.startTexts.size + 1;
    this.startTexts.set(text, own);
    this.starts.set(states, own);
    return own;
  }

  private solveWhole(vehicle: Vehicle, scene: Scene, states: States | undefined, id: number): OperatingPoint {
    this.counts.whole++;
    const at = operatingPoint(this.network(vehicle, scene), scene, states);
    vehicle.known.set(id, at);
    return at;
  }

  private factored(scene: Scene, states: States | undefined, id: number): ScreenedScene {
    const known = this.scenes.get(id);
    if (known) return known;
    const made = new ScreenedScene(this.answer(this.healthy, scene, states), states);
    const room = scenes_bytes / (16 * made.at.nodeVolts.length ** 2);
    if (this.scenes.size >= Math.min(mostScenes, Math.max(leastScenes, room))) this.scenes.delete(this.scenes.keys().next().value!);
    this.scenes.set(id, made);
    return made;
  }

  private vehicle(changes: readonly PartChange[], key: string, share: number): Vehicle {
    const known = this.byKey.get(key);
    if (known) return known.share === share ? known : { ...known, share };
    const made: Vehicle = { id: ++this.made, share, changes, key, nets: new Map(), unmoved: new Map(), known: new Map() };
    if (this.byKey.size >= mostVehicles) this.byKey.delete(this.byKey.keys().next().value!);
    this.byKey.set(key, made);
    return made;
  }
}

/** Everything that tells one set of changes from another. */
const changesKey = (changes: readonly PartChange[]): string =>
  changes
    .map(({ part, change }) => `${part}:${JSON.stringify(change, (_k, v: unknown) => (v === Number.POSITIVE_INFINITY ? 'open' : v))}`)
    .join(';');
