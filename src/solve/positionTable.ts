import type { Circuit } from '../circuit/circuit.ts';
import { type KeyStretch, keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Verdict } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import { type EngineState, type KeyPlace, type Scene, untouched } from '../circuit/scene.ts';
import { engineSeen } from './engine.ts';
import { type LoadSeen, loadAt, loadsAt, loadsOf } from './loads.ts';
import { atRest, type Network, network, type PartChange, type Setup } from './network.ts';
import { type OperatingPoint, operatingPoint, type States } from './operatingPoint.ts';
import { comesOtherWay, scenesAsked, type UsualWays, usualWays } from './otherWay.ts';
import { type Overload, overloads } from './overloads.ts';
import { sameValues } from './partValues.ts';
import { type Hand, tableNeeds } from './tableNeeds.ts';
import { turnedSwitch } from './turnedSwitch.ts';

/** A set of faults as it stands for a share of the time: an intermittent fault makes two worlds, others one. */
export type World = { readonly share: number; readonly changes: readonly PartChange[] };

export type CellVerdict = Verdict | 'chatters' | 'cranks' | 'runs' | 'still';

export type Cell = {
  readonly position: string;
  readonly verdict: CellVerdict;
  readonly volts: number;
  readonly amperes: number;
  /** The current comes or goes by a way that the healthy circuit never uses for this load. */
  readonly otherWay: boolean;
  readonly changed: boolean;
  readonly healthy: { readonly verdict: CellVerdict; readonly volts: number; readonly amperes: number };
  /** With an intermittent fault: the other verdict, and the share of the time it is so. */
  readonly sometimes?: { readonly verdict: CellVerdict; readonly share: number };
};

export type Row = { readonly id: string; readonly name: string; readonly needs: Hand; readonly cells: readonly Cell[] };
export type TablePosition = {
  readonly name: string;
  readonly angle: number;
  readonly from: number;
  readonly to: number;
  readonly detent: boolean;
  readonly key: KeyPlace;
  /** Where the key of the sound lock would be, when a weak spring or worn lock leaves it elsewhere. */
  readonly soundKey?: KeyPlace;
};
export type PositionTable = {
  readonly positions: readonly TablePosition[];
  readonly rows: readonly Row[];
  readonly warnings: readonly (Overload & { readonly position: string })[];
  /** Parts that never settle, each with the positions in which they do not: a relay that buzzes. */
  readonly chatters: readonly { readonly part: string; readonly positions: readonly string[] }[];
};

export type TableOptions = {
  /** Set by hand in every cell, besides what each load needs. */
  readonly hand?: Hand;
  /** Taken out, joined or exchanged in every cell. */
  readonly setup?: Setup;
  /** Also the stretches between detents. */
  readonly between?: boolean;
};

/** The row of the engine, in a circuit that has one. */
export const engineRow = 'engine';

/** A circuit without a key switch has one position, with no name that a lock would carry. */
const noKey: TablePosition = { name: 'as it is', angle: 0, from: 0, to: 0, detent: true, key: { angle: 0, came: 'up', in: true } };

/**
 * Every load in every key position, with what differs from the healthy circuit. Each cell asks: if this load were
 * switched on, would it work here? Loads that need the same hand actions share a solve.
 *
 * A position that a spring returns to (`ON after START`) has a column of its own when the way back makes a difference.
 * @param worlds  at least one; shares sum to 1; [{share: 1, changes: []}] is the healthy circuit itself
 */
export function positionTable(circuit: Circuit, worlds: readonly World[], options: TableOptions = {}): PositionTable {
  const healthy = healthyVehicle(circuit, options);
  const vehicles = worlds.map((w) => ({
    share: w.share,
    vehicle: w.changes.length === 0 ? healthy : new Vehicle(circuit, w.changes, options),
  }));
  const all = positionsOf(circuit, vehicles[0]!.vehicle.net);
  const positions = all
    .filter((p) => options.between || p.detent)
    .filter((p) => p.key.came === 'up' || returnDiffers(p, all, vehicles, healthy));
  const names = new Map(loadsOf(circuit.parts.values()).map((p) => [p.id, p.name ?? p.kind.title]));
  const rows = rowsOf(circuit).map(
    (id): Row => ({
      id,
      name: names.get(id) ?? 'Engine',
      needs: healthy.needs(id),
      cells: positions.map((p) => cell(id, p, vehicles, healthy)),
    }),
  );
  const worst = new Map<string, Overload & { position: string }>();
  for (const { vehicle } of vehicles)
    for (const p of positions)
      for (const over of vehicle.overloads(p, names.keys()))
        if ((worst.get(over.element)?.value ?? 0) < over.value) worst.set(over.element, { ...over, position: p.name });
  const chattering = new Map<string, Set<string>>();
  for (const { vehicle } of vehicles)
    for (const p of positions)
      for (const part of vehicle.chatters(p, names.keys())) remembered(chattering, part, () => new Set<string>()).add(p.name);
  const chatters = [...chattering].map(([part, where]) => ({ part, positions: [...where] }));
  return { positions, rows, warnings: [...worst.values()], chatters };
}

type Shared = readonly { readonly share: number; readonly vehicle: Vehicle }[];

function cell(id: string, position: TablePosition, vehicles: Shared, healthy: Vehicle): Cell {
  const sound = healthy.seen(id, position.soundKey ? { ...position, key: position.soundKey } : position);
  const seen = vehicles.map(({ share, vehicle }) => ({ share, vehicle, is: vehicle.seen(id, position) })).sort((a, b) => b.share - a.share);
  const main = seen[0]!;
  const other = seen.find((s) => s.is.verdict !== main.is.verdict);
  const changed = main.is.verdict !== sound.verdict || other !== undefined;
  return {
    position: position.name,
    ...main.is,
    otherWay: id !== engineRow && main.vehicle !== healthy && main.vehicle.comesOtherWay(id, position, healthy),
    changed,
    healthy: sound,
    ...(other && {
      sometimes: {
        verdict: other.is.verdict,
        share: seen.filter((s) => s.is.verdict !== main.is.verdict).reduce((sum, s) => sum + s.share, 0),
      },
    }),
  };
}

function returnDiffers(position: TablePosition, all: readonly TablePosition[], vehicles: Shared, healthy: Vehicle): boolean {
  const straight = all.find((p) => p.key.came === 'up' && p.angle === position.angle);
  return (
    straight !== undefined &&
    vehicles.some(
      ({ vehicle }) =>
        !vehicle.connectsAlike(straight, position) &&
        rowsOf(healthy.net.circuit).some((id) => vehicle.seen(id, straight).verdict !== vehicle.seen(id, position).verdict),
    )
  );
}

/** Loads in the order of the file, then the engine. */
function rowsOf(circuit: Circuit): readonly string[] {
  const ids = loadsOf(circuit.parts.values()).map((l) => l.id);
  return circuit.engine ? [...ids, engineRow] : ids;
}

/** Detents and stretches, each reached from below; and every detent that a spring returns to, reached from above. */
function positionsOf(circuit: Circuit, net: Network): readonly TablePosition[] {
  const lock = keySwitchOf(circuit);
  if (!lock) return [noKey];
  const { model } = turnedSwitch(net) ?? lock;
  const up = keyStretches(model).map((s: KeyStretch): TablePosition => ({ ...s, key: { angle: s.keyAngle, came: 'up', in: true } }));
  const returned = model.positions.flatMap((p): TablePosition[] => {
    if (p.springsTo === undefined) return [];
    const turned: KeyPlace = { angle: p.angle, came: 'up', in: true };
    const key = model.released(turned);
    const soundKey = lock.model.released(turned);
    return [
      {
        name: `${p.springsTo} after ${p.name}`,
        angle: model.positions.find((q) => q.name === p.springsTo)?.angle ?? key.angle,
        from: key.angle,
        to: key.angle,
        detent: true,
        key,
        ...(soundKey.angle !== key.angle && { soundKey }),
      },
    ];
  });
  return [...up, ...returned];
}

/** A solved scene; its loads are judged when they are asked for, since a cell asks for one of dozens. */
class Solved {
  readonly at: OperatingPoint;
  private readonly known = new Map<string, LoadSeen | undefined>();
  constructor(at: OperatingPoint) {
    this.at = at;
    // What chatters is told by looking at both sides of the swing.
    if (at.alternate !== undefined) for (const load of loadsAt(at)) this.known.set(load.id, load);
  }
  load(id: string): LoadSeen | undefined {
    return remembered(this.known, id, () => loadAt(this.at, id));
  }
}

const nothingSet: Hand = {};

/** The healthy vehicle is the same for every fault: the last few that were asked for are kept with what they have solved. */
const mostHealthy = 8;
const healthyOnes = new WeakMap<Circuit, Map<string, Vehicle>>();
function healthyVehicle(circuit: Circuit, options: TableOptions): Vehicle {
  const known = remembered(healthyOnes, circuit, () => new Map<string, Vehicle>());
  if (known.size >= mostHealthy) known.clear();
  return remembered(known, JSON.stringify([options.hand, options.setup]), () => new Vehicle(circuit, [], options));
}

/** What the hand sets, and the words by which solves are remembered: in one order, whatever was named first. */
type HandSet = { readonly hand: Hand; readonly key: string };
const handSet = (hand: Hand): HandSet => ({ hand, key: JSON.stringify(Object.entries(hand).sort(([a], [b]) => (a < b ? -1 : 1))) });

/** One circuit, solved as the cells ask for it; every scene at most once. */
class Vehicle {
  readonly net: Network;
  private readonly options: TableOptions;
  private readonly solved = new Map<string, Solved>();
  private readonly ways = new Map<string, UsualWays>();
  /** What the hand sets for a need, with what the options add. */
  private readonly hands = new Map<Hand, HandSet>();
  constructor(circuit: Circuit, changes: readonly PartChange[], options: TableOptions) {
    this.options = options;
    this.net = network(circuit, changes, options.setup);
  }

  needs(id: string): Hand {
    const { circuit } = this.net;
    return tableNeeds(circuit).get(id === engineRow ? (circuit.engine?.crank ?? '') : id) ?? nothingSet;
  }

  private hand(needs: Hand): HandSet {
    return remembered(this.hands, needs, () => handSet({ ...needs, ...this.options.hand }));
  }

  private solve(key: KeyPlace | undefined, hand: HandSet, engine: EngineState, states?: States): Solved {
    const asked = `${key?.angle} ${key?.came} ${key?.in} ${engine} ${states !== undefined} ${hand.key}`;
    return remembered(this.solved, asked, () => {
      const scene: Scene = { ...untouched, ...this.options.setup, ...(key && { key }), hand: hand.hand, engine };
      return new Solved(operatingPoint(this.net, scene, states));
    });
  }

  private standing(position: TablePosition, needs: Hand): Solved {
    return this.solve(position === noKey ? undefined : position.key, this.hand(needs), 'stopped');
  }

  /** Whether everything that the key moves connects the same in two positions: then there is nothing to solve twice. */
  connectsAlike(one: TablePosition, other: TablePosition): boolean {
    return this.net.members.every((member) => {
      const { varies = [] } = member.part.kind;
      if (!varies.includes('key')) return true;
      const rest = atRest(member.part, this.net.circuit.ambient);
      return !varies.includes('hand') && sameValues(member.values({ ...rest, key: one.key }), member.values({ ...rest, key: other.key }));
    });
  }

  /** Guide values passed in a position with any of these loads switched on. */
  overloads(position: TablePosition, ids: Iterable<string>): readonly Overload[] {
    return [...this.points(position, ids)].flatMap(overloads);
  }

  /** Parts that never settle in a position with any of these loads switched on. */
  chatters(position: TablePosition, ids: Iterable<string>): readonly string[] {
    return [...this.points(position, ids)].flatMap((at) => at.chatters);
  }

  private points(position: TablePosition, ids: Iterable<string>): ReadonlySet<OperatingPoint> {
    return new Set([...ids].map((id) => this.standing(position, this.needs(id)).at));
  }

  seen(id: string, position: TablePosition): { verdict: CellVerdict; volts: number; amperes: number } {
    if (id === engineRow) return this.engine(position);
    const { verdict, volts, amperes } = this.standing(position, this.needs(id)).load(id)!;
    return { verdict, volts, amperes };
  }

  /** `cranks` when the starter turns; else `runs` when spark and fuel would keep a turning engine alive here, else `still`. */
  private engine(position: TablePosition): { verdict: CellVerdict; volts: number; amperes: number } {
    const { crank, spark, fuel, stops = [] } = this.net.circuit.engine!;
    const ids = [crank, ...spark, ...fuel, ...stops];
    const hand = this.hand(this.needs(engineRow));
    const scene: Scene = { ...untouched, ...(position !== noKey && { key: position.key }), hand: hand.hand };
    const seen = engineSeen(this.net, scene, (_net, asked, states) => {
      const solved = this.solve(asked.key, hand, asked.engine, states);
      return { at: solved.at, loads: ids.flatMap((id) => solved.load(id) ?? []) };
    })!;
    return { verdict: seen.cranks ? 'cranks' : seen.alive ? 'runs' : 'still', volts: seen.volts, amperes: seen.amperes };
  }

  /** As a load is asked for, in every key position that is reached from below: its usual ways are those of the healthy vehicle there. */
  private usual(id: string): UsualWays {
    return remembered(this.ways, id, () => {
      const { circuit } = this.net;
      // What the table was told to set must not keep a load from its own switch here.
      const scenes = scenesAsked(circuit, { ...untouched, hand: this.options.hand ?? {} }, id);
      return usualWays(
        scenes.map(({ key, hand }) => this.solve(key, handSet(hand), 'stopped').at),
        circuit.parts.get(id)!,
      );
    });
  }

  comesOtherWay(id: string, position: TablePosition, healthy: Vehicle): boolean {
    const needs = this.needs(id);
    const { at } = this.standing(position, needs);
    // The very same currents as in the healthy vehicle, as where the fault does not show: nothing to walk.
    if (at.amperes === healthy.standing(position, needs).at.amperes) return false;
    const part = this.net.circuit.parts.get(id)!;
    const usual = healthy.usual(id);
    // Where another switch is set it may come otherwise in the healthy vehicle too.
    return comesOtherWay(at, part, usual) && comesOtherWay(at, part, new Set([...usual, ...healthy.waysHere(id, position)]));
  }

  private waysHere(id: string, position: TablePosition): UsualWays {
    return usualWays([this.standing(position, this.needs(id)).at], this.net.circuit.parts.get(id)!);
  }
}
