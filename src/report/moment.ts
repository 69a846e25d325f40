import type { Circuit } from '../circuit/circuit.ts';
import type { KeyPlace, Scene } from '../circuit/scene.ts';
import { jointAmperes } from '../solve/jointAmperes.ts';
import { type LoadSeen, loadsAt } from '../solve/loads.ts';
import type { Network } from '../solve/network.ts';
import { type OperatingPoint, operatingPoint, voltsAt } from '../solve/operatingPoint.ts';
import { type Overload, overloads } from '../solve/overloads.ts';
import { currentPaths, type Way } from '../solve/paths.ts';
import { turnedSwitch } from '../solve/turnedSwitch.ts';

export { engineNext } from '../solve/engine.ts';

/** Volts of every terminal (null: tied to nothing) and amperes of every element, at one instant. Plain data. */
export type Figures = { readonly volts: ReadonlyMap<string, number | null>; readonly amperes: ReadonlyMap<string, number> };

/** One instant of the bench: the circuit as it is with its faults, and as it would be without. */
export type Moment = {
  readonly is: Figures;
  readonly healthy: Figures;
  readonly loads: readonly LoadSeen[];
  readonly healthyLoads: readonly LoadSeen[];
  /** Contacts, fuses and the like that conduct now; elements of every kind that can be open. */
  readonly closed: ReadonlySet<string>;
  readonly healthyClosed: ReadonlySet<string>;
  readonly overloads: readonly Overload[];
  readonly chatters: readonly string[];
  /** Volts of the supply at rest in this scene: the upper end of the ramp. */
  readonly supply: number;
  /** Where the switch itself stands, degrees, when a fault makes it stand elsewhere than a healthy one would. */
  readonly stands: number | undefined;
  /** The way of the chosen load's current. */
  readonly ways?: { readonly load: string; readonly feed: Way; readonly back: Way } | undefined;
};

/**
 * Solves a scene twice, with the faults and without, for drawing.
 *
 * @param load  the chosen load, whose feed and return are to stand out
 * Cost: two operating points; both networks keep their patterns from one call to the next.
 */
export function momentOf(net: Network, healthyNet: Network, scene: Scene, load?: string): Moment {
  const is = operatingPoint(net, scene);
  const healthy = net.changes.length === 0 ? is : operatingPoint(healthyNet, scene);
  const part = load === undefined ? undefined : net.circuit.parts.get(load);
  const stands = switchAngle(net, scene);
  const stood = switchAngle(healthyNet, scene);
  const figures = figuresOf(is);
  const loads = loadsAt(is);
  // The trace that flows through a dead load has its own odd ways; nobody means those.
  const ways = part && loads.find((l) => l.id === load)?.verdict !== 'dead' ? currentPaths(is, part) : undefined;
  return {
    is: figures,
    healthy: is === healthy ? figures : figuresOf(healthy),
    loads,
    healthyLoads: is === healthy ? loads : loadsAt(healthy),
    closed: conducting(is),
    healthyClosed: conducting(healthy),
    overloads: overloads(is),
    chatters: is.chatters,
    supply: supplyVolts(is),
    stands: stands !== undefined && stood !== undefined && Math.abs(stands - stood) > 0.5 ? stands : undefined,
    ...(ways && load !== undefined && { ways: { load, feed: ways.feed, back: ways.return } }),
  };
}

function figuresOf(at: OperatingPoint): Figures {
  const volts = new Map<string, number | null>();
  for (const terminal of at.network.nodeOf.keys()) volts.set(terminal, voltsAt(at, terminal) ?? null);
  return { volts, amperes: new Map([...at.network.branches.map((b, k) => [b.id, at.amperes[k]!] as const), ...jointAmperes(at)]) };
}

function conducting(at: OperatingPoint): ReadonlySet<string> {
  const closed = new Set<string>();
  for (const [k, b] of at.network.branches.entries()) if (at.siemens[k]! > 0 || b.from === b.to) closed.add(b.id);
  return closed;
}

function switchAngle(net: Network, scene: Scene): number | undefined {
  return scene.key && turnedSwitch(net)?.model.switchAngle(scene.key);
}

/** Largest size of voltage that a supply of the circuit shows at its own terminals, V. */
function supplyVolts(at: OperatingPoint): number {
  let most = 0;
  for (const { part } of at.network.members) {
    const ends = part.kind.supply?.(part);
    if (!ends) continue;
    const [plus, minus] = ends.map((t) => voltsAt(at, `${part.id}.${t}`) ?? 0) as [number, number];
    most = Math.max(most, Math.abs(plus - minus));
  }
  return most;
}

/** Where the key comes to rest when the hand lets go: a weak spring stops short. The same place where nothing springs. */
export function keyReleased(net: Network, key: KeyPlace): KeyPlace {
  return turnedSwitch(net)?.model.released(key) ?? key;
}

/** Parts that a hand can set, with their settings, rest first; the key switch is turned, not set. */
export function handSettings(
  circuit: Circuit,
): readonly { readonly id: string; readonly name: string; readonly settings: readonly string[] }[] {
  return [...circuit.parts.values()].flatMap((part) => {
    const settings = part.kind.settings?.(part) ?? [];
    return settings.length > 1 && part.kind.key === undefined ? [{ id: part.id, name: part.name ?? part.kind.title, settings }] : [];
  });
}
