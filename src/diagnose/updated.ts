import type { Scene } from '../circuit/scene.ts';
import type { Network } from '../solve/network.ts';
import type { OperatingPoint, States } from '../solve/operatingPoint.ts';
import type { Felt } from '../solve/settled.ts';
import type { Port } from './ports.ts';

/** An instant of a vehicle with its changes in. Its currents are worked out when somebody asks for one. */
export class Updated implements Felt {
  readonly volts: Float64Array;
  readonly floats: Uint8Array;
  private readonly healthy: OperatingPoint;
  private readonly net: Network;
  /** The branches that are changed. */
  readonly edits: readonly Port[];
  private readonly laws: readonly Port[];
  private readonly same: boolean;
  private known: Float64Array | undefined;

  /**
   * @param ports  changed branches, and laws that left their tangents
   * @param same   no current differs
   */
  constructor(
    healthy: OperatingPoint,
    net: Network,
    volts: Float64Array,
    floats: Uint8Array,
    { edits, laws }: { readonly edits: readonly Port[]; readonly laws: readonly Port[] },
    same = false,
  ) {
    this.healthy = healthy;
    this.net = net;
    this.volts = volts;
    this.floats = floats;
    this.edits = edits;
    this.laws = laws;
    this.same = same;
  }

  get amperes(): Float64Array {
    this.known ??= this.same ? this.unmoved() : this.moved();
    return this.known;
  }

  /** Amperes of one branch: nearly always a handful is asked for, and never the rest. */
  readonly ampereIn = (branch: number): number => {
    if (this.known) return this.known[branch]!;
    const { amperes, siemens, nodeVolts } = this.healthy;
    if (this.same) return amperes[branch] ?? 0;
    const { edits, laws, volts } = this;
    for (let j = edits.length - 1; j >= 0; j--) if (edits[j]!.index === branch) return currentIn(edits[j]!, volts);
    for (const law of laws) if (law.branch === branch) return currentIn(law, volts);
    const { pairs } = this.net;
    const [a, b] = [pairs[2 * branch]!, pairs[2 * branch + 1]!];
    return amperes[branch]! + siemens[branch]! * (volts[a]! - nodeVolts[a]! - (volts[b]! - nodeVolts[b]!));
  };

  /** The healthy currents; a branch that a fault adds between two points of one potential carries none. */
  private unmoved(): Float64Array {
    const { amperes } = this.healthy;
    if (this.net.branches.length === amperes.length) return amperes;
    const more = new Float64Array(this.net.branches.length);
    more.set(amperes);
    return more;
  }

  /** The healthy current plus what the difference drives, so that small ones keep their digits. */
  private moved(): Float64Array {
    const { siemens, amperes: before, nodeVolts } = this.healthy;
    const { volts, edits, laws } = this;
    const { pairs, branches } = this.net;
    const amperes = new Float64Array(branches.length);
    for (let k = 0; k < siemens.length; k++) {
      const [a, b] = [pairs[2 * k]!, pairs[2 * k + 1]!];
      amperes[k] = before[k]! + siemens[k]! * (volts[a]! - nodeVolts[a]! - (volts[b]! - nodeVolts[b]!));
    }
    for (const port of laws) amperes[port.branch] = currentIn(port, volts);
    for (const p of edits) if (p.index >= 0) amperes[p.index] = currentIn(p, volts);
    return amperes;
  }
}

/** The healthy operating point with an update in it. Conductances and pushes stay those of the healthy vehicle. */
export class UpdatedPoint implements OperatingPoint {
  readonly network: Network;
  readonly scene: Scene;
  readonly nodeVolts: Float64Array;
  readonly floats: Uint8Array;
  readonly siemens: Float64Array;
  readonly push: Float64Array;
  readonly states: States;
  readonly chatters: readonly string[];
  readonly alternate?: States;
  readonly residual: number;
  readonly iterations = 0;
  private readonly instant: Updated;

  constructor(
    healthy: OperatingPoint,
    network: Network,
    instant: Updated,
    states: States,
    chatters: readonly string[] = [],
    alternate?: States,
  ) {
    this.network = network;
    this.chatters = chatters;
    if (alternate) this.alternate = alternate;
    this.scene = healthy.scene;
    this.nodeVolts = instant.volts;
    this.floats = instant.floats;
    this.siemens = healthy.siemens;
    this.push = healthy.push;
    this.states = states;
    this.residual = healthy.residual;
    this.instant = instant;
  }

  get amperes(): Float64Array {
    return this.instant.amperes;
  }

  get ampereIn(): (branch: number) => number {
    return this.instant.ampereIn;
  }
}

function currentIn(p: Port, volts: Float64Array): number {
  const across = volts[p.from]! - volts[p.to]! + p.offset;
  return p.law ? p.law(across).ampere : p.g1 * across + p.p1;
}
