import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { KeyPlace, State } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { loadsAt } from '../solve/loads.ts';
import { type Network, network, type PartChange } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { tableNeeds } from '../solve/tableNeeds.ts';

/** Under this a battery counts as flat whatever hangs on it: its cells are no longer alike and the weakest reverses (common practice, no source). */
const flat = 0.2;

const known = new WeakMap<Circuit, Map<boolean, number>>();

/**
 * Charge under which the starter is weak or dead, 0..1, at the circuit's temperature: found by halving on the solver.
 *
 * @param aged  with a battery that only just passes a load test
 * @returns at least 0.2; 1 when even a full battery does not crank
 * Cost: about 12 solves, once for each circuit.
 */
export function noStartCharge(circuit: Circuit, aged = false): number {
  const before = known.get(circuit)?.get(aged);
  if (before !== undefined) return before;
  const crank = circuit.engine?.crank;
  const place = crank === undefined ? undefined : crankingPlace(circuit, crank);
  let charge = flat;
  if (crank !== undefined && place !== undefined) {
    const net = network(circuit, aged ? agedBatteries(circuit) : []);
    if (!cranks(net, crank, place, 1)) charge = 1;
    else if (!cranks(net, crank, place, flat)) {
      let [low, high] = [flat, 1];
      while (high - low > 1e-3) {
        const middle = (low + high) / 2;
        if (cranks(net, crank, place, middle)) high = middle;
        else low = middle;
      }
      charge = high;
    }
  }
  const own = known.get(circuit) ?? new Map<boolean, number>();
  known.set(circuit, own.set(aged, charge));
  return charge;
}

const agedBatteries = (circuit: Circuit): readonly PartChange[] =>
  [...circuit.parts.values()].flatMap((part) =>
    part.kind.store ? [{ part: part.id, change: { do: 'params', patch: part.kind.store(part).aged } } as const] : [],
  );

/** Where the key makes the starter of the healthy vehicle turn; undefined when it never does. */
function crankingPlace(circuit: Circuit, crank: string): KeyPlace | undefined {
  const lock = keySwitchOf(circuit);
  if (!lock) return undefined;
  const net = network(circuit);
  const places = keyStretches(lock.model).map((s): KeyPlace => ({ angle: s.keyAngle, came: 'up', in: true }));
  return places.find((p) => cranks(net, crank, p, 1));
}

function cranks(net: Network, crank: string, key: KeyPlace, charge: number): boolean {
  const { circuit } = net;
  const states = new Map<string, State>();
  for (const p of circuit.parts.values()) if (p.kind.store) states.set(p.id, { ...p.kind.initial?.(p), charge });
  const scene = { ...restScene(circuit), key, hand: tableNeeds(circuit).get(crank) ?? {} };
  return loadsAt(operatingPoint(net, scene, states)).find((l) => l.id === crank)?.verdict === 'works';
}
