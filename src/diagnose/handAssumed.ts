import type { Circuit } from '../circuit/circuit.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Scene } from '../circuit/scene.ts';
import { loadAt } from '../solve/loads.ts';
import { type Network, network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { type Hand, tableNeeds } from '../solve/tableNeeds.ts';
import type { Observable, Seen } from './finding.ts';

/** What was found, and in which scene. */
type Found = { readonly scene: Scene; readonly observable: Observable; readonly seen: Seen };

/** What was wanted and did not come. */
const wanted: ReadonlySet<string> = new Set(['dead', 'weak', 'comes and goes', 'still', 'cranks slowly']);
/** What came, which in a sound vehicle it does only with its switch on. */
const came: ReadonlySet<string> = new Set(['works', 'cranks', 'fires']);
/** Not there at all. What shows a little may be fed backwards by the very switch that was named. */
const absent: ReadonlySet<string> = new Set(['dead', 'still']);

/**
 * Settings that a finding leaves out and means all the same: who says that the wiper is dead, or that it works, has
 * switched it on, as the position table assumes of every load. Only where the sound vehicle's load is dead in that very
 * scene as it was said: a dead one is then not dead with what `tableNeeds` says added to it. One that works where no
 * switch would bring it is taken so too: fed behind its switch or before, it works with the switch on. With any switch
 * named only what is wholly dead is taken so. Undefined where nothing was left out.
 *
 * With the key out it is asked what draws though nothing is switched on, and with something taken out, joined or
 * exchanged a person has thought of the scene: there all is as it was said.
 *
 * Cost: at most one solve for each scene and load of a circuit, and `tableNeeds` once.
 */
export function handLeftOut({ scene, observable, seen }: Found, circuit: Circuit): Hand | undefined {
  const word = wordOf(seen);
  const works = hasCome(seen);
  if (!(works || wanted.has(word)) || scene.key?.in === false) return undefined;
  if (scene.apart.length + scene.bridged.length + scene.swapped.length > 0) return undefined;
  if (!absent.has(word) && Object.keys(scene.hand).length > 0) return undefined;
  const load = observable.of === 'load' ? observable.load : observable.of === 'engine' ? circuit.engine?.crank : undefined;
  if (load === undefined) return undefined;
  // Whether the starter turns is asked of an engine that stands.
  const asked: Scene = observable.of === 'engine' ? { ...scene, engine: 'stopped' } : scene;
  if (!isDead(load, asked, circuit)) return undefined;
  const needs = tableNeeds(circuit).get(load) ?? {};
  const isSaidOtherwise = Object.entries(needs).some(([id, setting]) => (scene.hand[id] ?? setting) !== setting);
  const missing = Object.entries(needs).filter(([id]) => scene.hand[id] === undefined);
  if (isSaidOtherwise || missing.length === 0) return undefined;
  const hand = Object.fromEntries(missing);
  return !works && isDead(load, { ...asked, hand: { ...asked.hand, ...hand } }, circuit) ? undefined : hand;
}

/**
 * The scene with the switches named that were left at rest, where the words alone would be taken as if they were set:
 * `ON, S6 off: M3 dead`. It is how a finding says that nothing was switched on.
 */
export function sceneSaid(found: Found, circuit: Circuit): Scene {
  const { scene } = found;
  const left = Object.keys(handLeftOut(found, circuit) ?? {});
  if (left.length === 0) return scene;
  return { ...scene, hand: { ...scene.hand, ...Object.fromEntries(left.map((id) => [id, restOf(id, circuit)])) } };
}

/** The scene that `sceneSaid` came from: a switch that was named only to say that it was left at rest is not set. */
export function sceneMeant(found: Found, circuit: Circuit): Scene {
  const { scene } = found;
  const hand = Object.fromEntries(Object.entries(scene.hand).filter(([id, setting]) => setting !== restOf(id, circuit)));
  if (Object.keys(hand).length === Object.keys(scene.hand).length) return scene;
  const meant = { ...scene, hand };
  const left = handLeftOut({ ...found, scene: meant }, circuit);
  if (left === undefined) return scene;
  // Only the switches that matter to this load; what else was named stays as it was said.
  const others = Object.entries(scene.hand).filter(([id]) => left[id] === undefined);
  return others.length === Object.keys(scene.hand).length ? scene : { ...scene, hand: Object.fromEntries(others) };
}

/** Whether it is told of something that it came. */
export function hasCome(seen: Seen): boolean {
  return came.has(wordOf(seen));
}

function wordOf(seen: Seen): string {
  return 'word' in seen ? seen.word : 'engine' in seen ? seen.engine : '';
}

function restOf(id: string, circuit: Circuit): string {
  const part = circuit.parts.get(id)!;
  return part.kind.settings?.(part)[0] ?? '';
}

const nets = new WeakMap<Circuit, Network>();
const dead = new WeakMap<Circuit, Map<string, boolean>>();

function isDead(load: string, scene: Scene, circuit: Circuit): boolean {
  const known = remembered(dead, circuit, () => new Map<string, boolean>());
  return remembered(known, JSON.stringify([load, scene.key, scene.hand, scene.engine]), () => {
    const at = operatingPoint(
      remembered(nets, circuit, () => network(circuit)),
      scene,
    );
    return loadAt(at, load)?.verdict === 'dead';
  });
}
