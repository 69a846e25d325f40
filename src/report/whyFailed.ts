import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Scene } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import type { Fault } from '../faults/fault.ts';
import { network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { type Overload, overloads } from '../solve/overloads.ts';
import { tableNeeds } from '../solve/tableNeeds.ts';

/**
 * Why a part failed, as far as a circuit tells: with everything switched on at once, in every key position, does it
 * carry more than its guide value?
 *
 * Cost: one solve for each key position.
 */
export function whyFailed(circuit: Circuit, faults: readonly Fault[]): string {
  const parts = new Set(faults.map((f) => f.part));
  const found = overloadsWithAllOn(circuit).filter((o) => parts.has(o.part));
  if (found.length > 0)
    return found
      .slice(0, 2)
      .map(
        (o) =>
          `With everything switched on ${o.element} carries ${o.value.toPrecision(3)} A; ${o.what} ${o.limit} A.${reliefText(circuit, o)}`,
      )
      .join(' ');
  return 'Not overloaded as the circuit is drawn: look for heat marks, loose pins, water, wear, loads added later.';
}

/** Current of a relay coil of 75 to 100 Ω, A (estimate). */
const coil_A = 0.15;

/** What a relay would leave to a contact that works too hard. */
function reliefText(circuit: Circuit, { part, value }: Overload): string {
  const kind = circuit.parts.get(part)?.kind;
  if (!kind?.key && !kind?.settings) return '';
  return ` A relay that takes the load leaves it the current of a coil, about ${coil_A} A in place of ${value.toPrecision(3)} A.`;
}

function overloadsWithAllOn(circuit: Circuit): readonly Overload[] {
  const lock = keySwitchOf(circuit);
  const hand = Object.assign({}, ...tableNeeds(circuit).values()) as Scene['hand'];
  const net = network(circuit);
  const worst = new Map<string, Overload>();
  const places = lock ? keyStretches(lock.model).filter((s) => s.detent) : [];
  for (const { keyAngle } of places) {
    const at = operatingPoint(net, { ...restScene(circuit), hand, key: { angle: keyAngle, came: 'up', in: true } });
    for (const o of overloads(at)) if (o.value > (worst.get(o.element)?.value ?? 0)) worst.set(o.element, o);
  }
  return [...worst.values()];
}
