import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Part } from '../circuit/part.ts';
import { edgesBeside, reached, wiresOf } from '../circuit/wiringEdges.ts';
import { attachFault } from '../parts/wire.ts';
import type { PartFault } from './faultModes.ts';

/** A wire's end and the terminal that it is fastened to. */
type WireEnd = { readonly wire: string; readonly end: 1 | 2; readonly at: string };

/** After a key switch was changed, two wires exchanged are likelier than a load put on another rail (estimates). */
const atSwitch = 0.1;
const atFeed = 0.05;

/**
 * Wires on the wrong terminal, as far as they are worth suspecting: at the key switch, each wire on each other terminal
 * of it; and each load that hangs straight on one outlet of the key switch, fed from another outlet instead (the
 * accessory on the wrong feed). Any other wrong terminal can be put in by its phrase, and is not in the list.
 */
export function wrongFeedModes(circuit: Circuit): readonly PartFault[] {
  const lock = keySwitchOf(circuit);
  if (!lock) return [];
  const outlets = [...new Set(lock.model.contacts.flatMap((c) => c.id.split('-')))].map((t) => `${lock.part.id}.${t}`);
  const ends = wireEnds(circuit);
  const swapped = ends
    .filter((e) => outlets.includes(e.at))
    .flatMap((e) => outlets.filter((t) => t !== e.at).map((t) => moved(e, t, atSwitch, `wire ${e.wire} is on ${t} instead of ${e.at}`)));
  const rails = railsOf(circuit, outlets);
  const fed = [...circuit.parts.values()].flatMap((load) => {
    const tap = feedEnd(circuit, load, ends);
    const rail = tap && rails.get(tap.at);
    // A joint at another load is inside its housing, as a rule; nobody taps a feed there.
    const isTap = tap && !outlets.includes(tap.at) && circuit.parts.get(tap.at.slice(0, tap.at.indexOf('.')))?.isLoad !== true;
    if (!isTap || rail === undefined) return [];
    return outlets
      .filter((t) => t !== rail && rails.get(t) === t)
      .map((t) => moved(tap, t, atFeed, `${load.name ?? load.id} is fed from ${t} instead of ${tap.at}`));
  });
  return [...swapped, ...fed];
}

function moved(e: WireEnd, terminal: string, weight: number, text: string): PartFault {
  return { part: e.wire, mode: { ...attachFault(e.wire, e.end, terminal), weight, text } };
}

function wireEnds(circuit: Circuit): readonly WireEnd[] {
  return circuit.attached.flatMap(([own, at]) => {
    const dot = own.lastIndexOf('.');
    const wire = own.slice(0, dot);
    if (circuit.parts.get(wire)?.kind.isWire !== true) return [];
    return [{ wire, end: own.slice(dot + 1) === '1' ? 1 : 2, at }];
  });
}

/** Every point that is joined to an outlet by wires, fuses and plugs alone -> that outlet; the first outlet where two are joined. */
function railsOf(circuit: Circuit, outlets: readonly string[]): ReadonlyMap<string, string> {
  const beside = edgesBeside(wiresOf(circuit).edges);
  const rails = new Map<string, string>();
  for (const outlet of outlets)
    for (const point of reached(beside, [outlet], (edge) => edge.isJoint)) if (!rails.has(point)) rails.set(point, outlet);
  return rails;
}

/** The far end of the wire that feeds a load and nothing else, followed back through plugs. */
function feedEnd(circuit: Circuit, load: Part, ends: readonly WireEnd[]): WireEnd | undefined {
  const feed = load.isLoad ? load.kind.loadEnds?.(load)[0] : undefined;
  if (feed === undefined) return undefined;
  let at = `${load.id}.${feed}`;
  for (const passed = new Set<string>(); !passed.has(at); ) {
    passed.add(at);
    const near = ends.filter((e) => e.at === at && !passed.has(`${e.wire}`));
    if (near.length !== 1) return undefined;
    passed.add(near[0]!.wire);
    const far = ends.find((e) => e.wire === near[0]!.wire && e.end !== near[0]!.end);
    if (!far) return undefined;
    const mate = mateOf(circuit, far.at);
    if (mate === undefined || ends.filter((e) => e.at === far.at).length > 1) return far;
    at = mate;
  }
  return undefined;
}

/** The other side of a plug's pin: of a part that only joins, the one terminal tied to this one. */
function mateOf(circuit: Circuit, point: string): string | undefined {
  const part = circuit.parts.get(point.slice(0, point.indexOf('.')));
  if (!part || part.isLoad || part.kind.isWire || part.kind.varies?.length || part.kind.supply) return undefined;
  const own = wiresOf(circuit).edges.filter((e) => e.part === part && (e.a === point || e.b === point));
  if (own.length !== 1 || !own[0]!.isJoint) return undefined;
  const other = own[0]!.a === point ? own[0]!.b : own[0]!.a;
  return other.startsWith(`${part.id}.`) ? other : undefined;
}
