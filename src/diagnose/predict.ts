import type { Circuit } from '../circuit/circuit.ts';
import type { Shunt, Verdict } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import { type Scene, untouched } from '../circuit/scene.ts';
import type { Fault } from '../faults/fault.ts';
import { bareOhms } from '../solve/bareOhms.ts';
import { engineSeen, type SolveScene } from '../solve/engine.ts';
import { loadAt, loadsAt } from '../solve/loads.ts';
import { amperesInto, type OperatingPoint, operatingPoint, voltsAt } from '../solve/operatingPoint.ts';
import { outcomeChances } from './exchange.ts';
import type { During, Finding, Observable } from './finding.ts';
import { clampDrift_A, type InWorld, meterDrift_A, slip } from './likelihood.ts';
import { type Vehicle, Vehicles } from './vehicles.ts';

/** What one hypothesis says that one observable would be, in one of its worlds. */
export type Prediction =
  /** `watts`: the most that any element of the part turns to heat; 0 unless heat was asked for. */
  | { readonly of: 'load'; readonly verdict: Verdict | 'chatters'; readonly watts: number }
  /** `turning`: the starter or its own running turned it before, so that spark and fuel show. */
  | { readonly of: 'engine'; readonly cranks: boolean; readonly slowly: boolean; readonly alive: boolean; readonly turning: boolean }
  /** `volt` null = tied to nothing. `wide`: the battery sags by an amount that the model knows badly. `spread`: half-distance to the next grade of the fault. */
  | {
      readonly of: 'volts';
      readonly volt: number | null;
      readonly wide: boolean;
      readonly spread: number;
      readonly range: number;
      /** Both leads on one fuse, which is then a shunt. */
      readonly shunt?: Shunt;
    }
  /** `drift`: how far the instrument's zero may be off, A. */
  | { readonly of: 'amperes'; readonly ampere: number; readonly spread: number; readonly drift: number }
  | { readonly of: 'ohms'; readonly ohm: number }
  | { readonly of: 'outcome'; readonly chance: Readonly<Partial<Record<'no change' | 'cured' | 'changes', number>>> };

/** Power that an ohm of a warm contact must turn to heat before a hand feels it is judged in `likelihood`; this asks for it. */
type Asked = { readonly scene: Scene; readonly observable: Observable; readonly heat?: boolean };

/**
 * Answers what any set of faults predicts in any scene, all from the one solver. What was said of a finding is kept
 * with the set of faults, so that one more finding costs only its own scenes.
 */
export class Predictor {
  readonly circuit: Circuit;
  readonly nominal_V: number;
  readonly vehicles: Vehicles;
  private readonly keys = new WeakMap<Finding, string>();
  private readonly told = new WeakMap<readonly Fault[], Map<string, readonly InWorld[]>>();

  constructor(circuit: Circuit) {
    this.circuit = circuit;
    this.vehicles = new Vehicles(circuit);
    const rest = this.vehicles.answer(this.vehicles.healthy, untouched);
    this.nominal_V = rest.nodeVolts.reduce((most, v) => Math.max(most, Math.abs(v)), 1);
  }

  /** What a set of faults says of a finding's observable in its scene, one prediction per world. */
  predict(faults: readonly Fault[], finding: Finding): readonly InWorld[] {
    let known = this.told.get(faults);
    if (!known) {
      known = new Map();
      this.told.set(faults, known);
    }
    const heat = 'word' in finding.seen && finding.seen.word === 'hot';
    const key = remembered(
      this.keys,
      finding,
      () => `${this.vehicles.idOf(finding.scene)} ${JSON.stringify(finding.observable)}${heat ? ' hot' : ''}`,
    );
    const before = known.get(key);
    if (before) return before;
    const { scene, observable } = finding;
    const said = this.expected(faults, heat ? { scene, observable, heat } : finding);
    known.set(key, said);
    return said;
  }

  /** Forgets what was said quickly of these sets and has every scene of the findings solved whole, so that the next answers are exact. */
  confirm(sets: readonly (readonly Fault[])[], findings: readonly Finding[]): void {
    this.vehicles.exactly(() => {
      for (const faults of sets) {
        this.told.delete(faults);
        for (const finding of findings) this.predict(faults, finding);
      }
    });
  }

  /** The same for anything that could be looked at; not kept. */
  expected(faults: readonly Fault[], { scene, observable, heat = false }: Asked): readonly InWorld[] {
    if (observable.of === 'exchange' || observable.of === 'touch')
      return [{ share: 1, is: { of: 'outcome', chance: outcomeChances(this.circuit, faults, observable) } }];
    const worlds = this.vehicles.of(faults, scene.swapped);
    const shares =
      'during' in observable && observable.during ? this.sharesDuring(worlds, scene, observable.during) : worlds.map((w) => w.share);
    return worlds.flatMap((vehicle, k) => {
      const is = this.inWorld(vehicle, scene, observable, heat);
      const other = observable.of === 'volts' ? this.otherSide(vehicle, scene, observable) : undefined;
      if (other === undefined || is.of !== 'volts') return [{ share: shares[k]!, is }];
      return [is, { ...is, volt: other }].map((side) => ({ share: shares[k]! / 2, is: side }));
    });
  }

  /** Volts on the other side of the swing, where something chatters: a meter shows now this, now that. */
  private otherSide(vehicle: Vehicle, scene: Scene, { at, to }: Observable & { of: 'volts' }): number | null | undefined {
    const swings = otherSideOf(this.vehicles.answer(vehicle, scene));
    return swings && voltsBetween(swings, at, to);
  }

  /**
   * Share of each world while a load is as it was watched to be. Whoever takes a reading then has waited for it, so the
   * shares sum to what they did: how often it is so tells nothing here.
   */
  sharesDuring(worlds: readonly Vehicle[], scene: Scene, { load, word }: During): readonly number[] {
    const whole = worlds.reduce((sum, w) => sum + w.share, 0);
    if (worlds.length === 1) return [whole];
    const weights = worlds.map((vehicle) => {
      const is = this.inWorld(vehicle, scene, { of: 'load', load }, false);
      return vehicle.share * (is.of === 'load' && is.verdict === word ? 1 : slip);
    });
    const sum = weights.reduce((a, b) => a + b, 0);
    return weights.map((w) => (w * whole) / sum);
  }

  private inWorld(vehicle: Vehicle, scene: Scene, observable: Observable, heat: boolean): Prediction {
    switch (observable.of) {
      case 'engine': {
        const seen = engineSeen(this.vehicles.network(vehicle, scene), scene, this.engineScene(vehicle));
        const turning = scene.engine !== 'stopped' || scene.key?.came === 'back';
        const starter = { of: 'engine', cranks: seen?.cranks ?? false, slowly: seen?.slowly ?? false, turning } as const;
        if (this.vehicles.areSolvedWhole) return { ...starter, alive: seen?.alive ?? false };
        return {
          ...starter,
          get alive() {
            return seen?.alive ?? false;
          },
        };
      }
      case 'volts': {
        const { at: first, to, instrument } = observable;
        const at = this.vehicles.answer(
          instrument === 'test lamp' ? this.vehicles.withTestLamp(vehicle, first, to, scene) : vehicle,
          scene,
        );
        const shunt = shuntAcross(this.circuit, first, to);
        return {
          of: 'volts',
          volt: voltsBetween(at, first, to),
          wide: this.sags(at),
          spread: 0,
          range: this.nominal_V,
          ...(shunt && { shunt }),
        };
      }
      case 'amperes': {
        const ampere = Math.abs(amperesInto(this.vehicles.answer(vehicle, scene), observable.at));
        return { of: 'amperes', ampere, spread: 0, drift: observable.instrument === 'clamp' ? clampDrift_A : meterDrift_A };
      }
      case 'ohms': {
        const { part, at, to, angle, setting } = observable;
        const turned = { ...(angle !== undefined && { angle }), ...(setting !== undefined && { setting }) };
        return { of: 'ohms', ohm: bareOhms(this.circuit.parts.get(part)!, vehicle.changes, at, to, turned) };
      }
      case 'load': {
        const at = this.vehicles.answer(vehicle, scene);
        const seen = at.alternate ? loadsAt(at).find((l) => l.id === observable.load) : loadAt(at, observable.load);
        return { of: 'load', verdict: seen?.verdict ?? 'dead', watts: heat ? wastedWatts(at, observable.load) : 0 };
      }
      default:
        throw new Error('an exchange or a touch has no scene to solve');
    }
  }

  /** True where the starter pulls the battery down, by an amount that age and cold decide. */
  sags(at: OperatingPoint): boolean {
    const crank = this.circuit.engine?.crank;
    return crank !== undefined && (loadAt(at, crank)?.verdict ?? 'dead') !== 'dead';
  }

  /** Solves for `engineSeen`, which looks at a handful of loads only. */
  private engineScene(vehicle: Vehicle): SolveScene {
    const { crank, spark, fuel, stops = [] } = this.circuit.engine!;
    const ids = [crank, ...spark, ...fuel, ...stops];
    return (_net, scene, states) => {
      const at = this.vehicles.answer(vehicle, scene, states);
      return { at, loads: at.alternate ? loadsAt(at) : ids.flatMap((id) => loadAt(at, id) ?? []) };
    };
  }
}

/** The furthest that a chattering vehicle swings to; undefined where everything settles. */
export function otherSideOf(at: OperatingPoint): OperatingPoint | undefined {
  return at.alternate && remembered(swung, at, () => operatingPoint(at.network, at.scene, at.alternate, false));
}
const swung = new WeakMap<OperatingPoint, OperatingPoint>();

/** The fuse whose two ends these terminals are, if its cold resistance is known. */
export function shuntAcross(circuit: Circuit, first: string, second: string): Shunt | undefined {
  const [part, other] = [first, second].map((t) => circuit.parts.get(t.slice(0, Math.max(0, t.lastIndexOf('.')))));
  return part !== undefined && part === other ? part.kind.shunt?.(part) : undefined;
}

/** Volts of the first above the second terminal; null when either is tied to nothing. */
export function voltsBetween(at: OperatingPoint, first: string, second: string): number | null {
  const [a, b] = [voltsAt(at, first), voltsAt(at, second)];
  return a === null || b === null || a === undefined || b === undefined ? null : a - b;
}

/** Heat in a part's contacts: the largest loss of any of its elements, W. */
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
