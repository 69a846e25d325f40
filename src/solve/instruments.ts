import { alg } from '@dagrejs/graphlib';
import type { Circuit } from '../circuit/circuit.ts';
import { filament } from '../circuit/laws.ts';
import { type Scene, untouched } from '../circuit/scene.ts';
import { jointAmperes } from './jointAmperes.ts';
import { network, type PartChange } from './network.ts';
import { amperesInto, type OperatingPoint, operatingPoint, voltsAt } from './operatingPoint.ts';
import { eliminate, nodeVoltages } from './starMesh.ts';
import { wiringGraph } from './wiringGraph.ts';

/** What an instrument shows, and what it does to the circuit while it hangs there. */
export type InstrumentReading =
  | {
      readonly shows: 'volts';
      readonly volts: number /** One lead or both touch something that is tied to nothing. */;
      readonly floating: boolean;
    }
  | { readonly shows: 'lamp'; readonly brightness: 'bright' | 'dim' | 'dark'; readonly volts: number; readonly amperes: number }
  | { readonly shows: 'amperes'; readonly amperes: number /** Its own fuse is gone. */; readonly blown: boolean }
  /** `Infinity`: no way between the leads. */
  | { readonly shows: 'ohms'; readonly ohm: number }
  /** An ohmmeter on a live circuit: the volts that stand in its way, and where. */
  | { readonly shows: 'refusal'; readonly volts: number; readonly at: string };

/** Input resistance of a digital voltmeter, Ω. Source: usual for handheld digital meters, common practice. */
export const voltmeter_ohm = 10e6;
/** Shunt and leads of a 10 A range, Ω (estimate), and the fuse of that range, A (common practice). */
const ammeter_ohm = 0.03;
const ammeterFuse_A = 10;
/** Test lamp: a 3 W bulb for the circuit's voltage class (common practice); cold a tenth of hot. */
export const lamp_W = 3;
/** Shares of its rated watts over which a test lamp is called bright, and under which nobody sees it glow (estimates). */
const bright_share = 0.6;
const dark_share = 0.03;
/** An ohmmeter takes any voltage above this for a live circuit, V (estimate). */
const live_V = 0.02;

/** The circuit with its faults, in a scene, on which an instrument is put. */
export type Bench = { readonly circuit: Circuit; readonly changes: readonly PartChange[]; readonly scene: Scene };

/** Volts from the red lead to the black one, with the meter's own 10 MΩ in the circuit. */
export function voltmeter(bench: Bench, red: string, black: string): InstrumentReading {
  const bare = solved(bench, []);
  const [a, b] = [voltsAt(bare, red), voltsAt(bare, black)];
  const floating = a === null || b === null;
  const at = solved(bench, [between(bench, red, black, voltmeter_ohm)]);
  return { shows: 'volts', volts: across(at, red, black), floating };
}

/**
 * A test lamp between two points. Its filament is found by fixed point on its own resistance, which rises with its
 * voltage: each step is a solved circuit, and the steps close in because a hotter lamp takes less current.
 */
export function testLamp(bench: Bench, red: string, black: string): InstrumentReading {
  const rated = classVolts(bench);
  const law = filament(lamp_W, rated);
  let ohm = (rated * rated) / lamp_W;
  let volts = 0;
  for (let step = 0; step < 40; step++) {
    volts = across(solved(bench, [between(bench, red, black, ohm)]), red, black);
    const next = Math.abs(volts) < 1e-6 ? 1 / law(0).siemens : volts / law(volts).ampere;
    if (Math.abs(next / ohm - 1) < 1e-6) break;
    ohm = Math.sqrt(ohm * next);
  }
  const amperes = law(volts).ampere;
  const share = Math.abs(volts * amperes) / lamp_W;
  return { shows: 'lamp', volts, amperes, brightness: share > bright_share ? 'bright' : share > dark_share ? 'dim' : 'dark' };
}

/**
 * A clamp: round a wire or part, from its first end to its second; or round all wires of a terminal, into the part.
 * It does not touch the circuit.
 */
export function clamp(bench: Bench, place: string): InstrumentReading {
  const at = solved(bench, []);
  const k = at.network.branchOf.get(place);
  // An ideal wire is a branch too, but what it carries is not in the solution.
  const own = jointAmperes(at).get(place) ?? (k === undefined ? undefined : at.amperes[k]!);
  return { shows: 'amperes', amperes: own ?? amperesInto(at, place) + throughJoints(at, place), blown: false };
}

/** Whether a clamp goes round it: a terminal, or a wire or part with one way through. Of a switch or relay it has to be a terminal. */
export function isClampable(circuit: Circuit, place: string): boolean {
  const part = circuit.parts.get(place);
  return part === undefined || part.kind.poles(part).length === 1;
}

/** What flows from a terminal into ideal wires that begin or end there, A: the solver merges their ends, and gives them no current of their own. */
function throughJoints(at: OperatingPoint, terminal: string): number {
  const own = at.network.branches.filter((b) => b.fromTerminal === terminal || b.toTerminal === terminal);
  const joints = own.length === 0 ? undefined : jointAmperes(at);
  return own.reduce((sum, b) => sum + (b.fromTerminal === terminal ? 1 : -1) * (joints!.get(b.id) ?? 0), 0);
}

/** What an ammeter opens to get in line: the wire or part itself if there is one way through it, or the only wire of a terminal; undefined where none or several would fit. */
export function lineAt(circuit: Circuit, place: string): string | undefined {
  if (circuit.parts.has(place)) return isClampable(circuit, place) ? place : undefined;
  const wires = circuit.attached.filter(([, terminal]) => terminal === place).map(([end]) => end.slice(0, end.lastIndexOf('.')));
  return wires.length === 1 ? wires[0] : undefined;
}

/** An ammeter in line with a wire or part: its shunt in series, its fuse gone when the current is more than the range bears. */
export function ammeter(bench: Bench, part: string): InstrumentReading {
  const at = solved(bench, [{ part, change: { do: 'series', element: '', ohm: ammeter_ohm } }]);
  const k = at.network.branchOf.get(part);
  const amperes = k === undefined ? (jointAmperes(at).get(part) ?? 0) : at.amperes[k]!;
  const blown = Math.abs(amperes) > ammeterFuse_A;
  return { shows: 'amperes', amperes: blown ? 0 : amperes, blown };
}

/**
 * Ohms between two points of a circuit without voltage, by the ohmmeter's own small current: parts count as they are
 * near 0 V, so a lamp reads cold and a diode open. On a live circuit it refuses and says what stands there.
 */
export function ohmmeter(bench: Bench, red: string, black: string): InstrumentReading {
  const at = solved(bench, []);
  for (const [a, b] of [
    [red, black],
    [red, at.network.reference],
    [black, at.network.reference],
  ] as const) {
    const volts = across(at, a, b);
    if (Math.abs(volts) > live_V) return { shows: 'refusal', volts, at: a };
  }
  const [from, to] = [at.network.nodeOf.get(red), at.network.nodeOf.get(black)];
  if (from === undefined || to === undefined) return { shows: 'ohms', ohm: Number.POSITIVE_INFINITY };
  if (from === to) return { shows: 'ohms', ohm: 0 };
  const together = alg.components(wiringGraph(at)).some((nodes) => nodes.includes(String(from)) && nodes.includes(String(to)));
  if (!together) return { shows: 'ohms', ohm: Number.POSITIVE_INFINITY };
  const feeds = new Float64Array(at.network.pattern.nodes);
  const volts = new Float64Array(at.network.pattern.nodes);
  feeds[from] = 1;
  feeds[to] = -1;
  nodeVoltages(eliminate(at.network.pattern, at.siemens), feeds, volts);
  return { shows: 'ohms', ohm: volts[from]! - volts[to]! };
}

function solved({ circuit, changes, scene }: Bench, more: readonly PartChange[]): OperatingPoint {
  return operatingPoint(network(circuit, [...changes, ...more], scene), scene);
}

/** A resistance between two points of the vehicle, hung on any part that stands in the circuit. */
export function between({ circuit, scene }: Pick<Bench, 'circuit' | 'scene'>, from: string, to: string, ohm: number): PartChange {
  const part = [...circuit.parts.keys()].find((id) => !scene.apart.includes(id) && !scene.swapped.includes(id)) ?? '';
  return { part, change: { do: 'bridge', from, to, ohm } };
}

/** Volts of the first point above the second; what is tied to nothing carries none. */
function across(at: OperatingPoint, first: string, second: string): number {
  const [a, b] = [voltsAt(at, first), voltsAt(at, second)];
  return (a ?? 0) - (b ?? 0);
}

/** 6, 12 or 24 V, by the first supply's voltage at rest. */
export function classVolts({ circuit, changes, scene }: Bench): number {
  const { key, swapped } = scene;
  const rest: Scene = { ...untouched, ...(key && { key }), swapped };
  const at = operatingPoint(network(circuit, changes, rest), rest);
  for (const { part } of at.network.members) {
    const ends = part.kind.supply?.(part);
    if (!ends) continue;
    const volts = Math.abs(across(at, `${part.id}.${ends[0]}`, `${part.id}.${ends[1]}`));
    if (volts > 0) return volts < 9 ? 6 : volts < 18 ? 12 : 24;
  }
  return 12;
}
