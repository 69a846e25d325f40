import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { changesOf, faultOf } from '../faults/fault.ts';
import { faultModes } from '../faults/faultModes.ts';
import { engineSeen } from '../solve/engine.ts';
import { network } from '../solve/network.ts';

/**
 * The fault by which a newcomer meets the program: a contact of the key switch that is open only in the position to
 * which the key springs back, so that the engine fires and dies on release.
 *
 * @returns its phrase; undefined for a circuit without an engine, without a sprung position, or where nothing does that
 * Cost: a few solves for each contact of the key switch.
 */
export function storyFault(circuit: Circuit): string | undefined {
  const lock = keySwitchOf(circuit);
  const sprung = lock?.model.positions.find((p) => p.springsTo !== undefined);
  const home = lock?.model.positions.find((p) => p.name === sprung?.springsTo);
  if (!circuit.engine || !lock || !sprung || !home) return undefined;
  const at = (angle: number, engine: 'running' | 'stopped') =>
    ({ ...restScene(circuit), key: { angle, came: 'up', in: true }, engine }) as const;
  for (const { part, mode } of faultModes(circuit)) {
    if (part !== lock.part.id || mode.words !== `open at ${home.name}`) continue;
    const fault = faultOf(part, mode);
    const net = network(circuit, changesOf([fault]));
    const [cranks, runs] = [engineSeen(net, at(sprung.angle, 'stopped')), engineSeen(net, at(home.angle, 'running'))];
    if (cranks?.cranks && cranks.alive && runs?.alive === false) return fault.phrase;
  }
  return undefined;
}
