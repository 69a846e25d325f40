import type { Joint, Network } from './network.ts';
import type { OperatingPoint } from './operatingPoint.ts';

/** A network of resistances and sources that any other program can solve again; ohm, volt, ampere. */
export type LinearNetwork = {
  /** The node that is 0 V. */
  readonly reference: string;
  readonly nodes: readonly string[];
  readonly resistances: readonly { readonly from: string; readonly to: string; readonly ohm: number }[];
  /** `volt` in series with `ohm`; 0 Ω is exact. Current positive out of `plus`. */
  readonly sources: readonly { readonly plus: string; readonly minus: string; readonly volt: number; readonly ohm: number }[];
  readonly currents: readonly { readonly into: string; readonly outOf: string; readonly ampere: number }[];
  /** Node -> volts against the reference. */
  readonly volts: Readonly<Record<string, number>>;
};

/**
 * The circuit as it stands at its solution: open branches gone, every law in place as its slope and the current that
 * is left over, terminals that are joined ideally under one name. Solving it anew gives the same voltages.
 *
 * Left out: whatever has no path to the reference (its voltages are not defined), and exact sources that only close
 * a loop of exact sources (they agree with the others, but how they share the current is not defined).
 */
export function linearNetwork(at: OperatingPoint): LinearNetwork {
  const { network } = at;
  const levels = new Levels(network);
  const resistances: LinearNetwork['resistances'][number][] = [];
  const sources: LinearNetwork['sources'][number][] = [];
  const currents: LinearNetwork['currents'][number][] = [];
  for (const [k, b] of network.branches.entries()) {
    if (at.floats[b.from] === 1 || at.floats[b.to] === 1) continue;
    const [from, to] = [levels.nameOf(b.fromTerminal), levels.nameOf(b.toTerminal)];
    const [siemens, push] = [at.siemens[k]!, at.push[k]!];
    if (from === to) continue;
    if (b.is === 'source') {
      if (siemens > 0) sources.push({ plus: to, minus: from, volt: push / siemens, ohm: 1 / siemens });
      continue;
    }
    if (siemens > 0) resistances.push({ from, to, ohm: 1 / siemens });
    if (push !== 0) currents.push({ into: to, outOf: from, ampere: push });
  }
  for (const joint of spanning(network.joints)) {
    if (at.floats[network.nodeOf.get(joint.a)!] === 1) continue;
    const [plus, minus] = [levels.nameOf(joint.a), levels.nameOf(joint.b)];
    sources.push({ plus, minus, volt: joint.volt, ohm: 0 });
  }
  const reference = levels.nameOf(network.reference);
  const used = new Set([reference, ...resistances.flatMap((r) => [r.from, r.to]), ...sources.flatMap((s) => [s.plus, s.minus])]);
  const volts = Object.fromEntries(
    [...used].map((n) => [n, at.nodeVolts[network.nodeOf.get(n)!]! + (network.offsetOf.get(n) ?? 0)] as const),
  );
  return { reference, nodes: [...used], resistances, sources, currents, volts };
}

/** Terminals of one node that also stand at one voltage: they bear the name of the first of them, the reference its own. */
class Levels {
  private readonly names = new Map<string, string>();
  private readonly network: Network;
  constructor(network: Network) {
    this.network = network;
    this.nameOf(network.reference);
  }
  nameOf(terminal: string): string {
    const level = `${this.network.nodeOf.get(terminal)} ${(this.network.offsetOf.get(terminal) ?? 0).toPrecision(12)}`;
    const name = this.names.get(level) ?? terminal;
    this.names.set(level, name);
    return name;
  }
}

/** The exact sources that tie terminals together for the first time; one that closes a loop adds nothing. */
function spanning(joints: readonly Joint[]): readonly Joint[] {
  const up = new Map<string, string>();
  const root = (name: string): string => {
    let at = name;
    for (let next = up.get(at); next !== undefined; next = up.get(at)) at = next;
    return at;
  };
  const tie = ({ a, b }: Joint): boolean => {
    const [ra, rb] = [root(a), root(b)];
    if (ra !== rb) up.set(ra, rb);
    return ra !== rb;
  };
  for (const joint of joints) if (joint.volt === 0) tie(joint);
  return joints.filter((joint) => joint.volt !== 0 && tie(joint));
}
