import { ownerOf } from '../circuit/ownerOf.ts';
import type { Scene } from '../circuit/scene.ts';
import type { Fault } from '../faults/fault.ts';
import { sameState } from '../solve/partValues.ts';
import { accessTo, type Candidate, look_min, renew_min, setUpOf, unplugCaution } from './candidates.ts';
import type { Finding, Observable } from './finding.ts';
import type { Predictor } from './predict.ts';

/** Extra minutes to unplug something and plug it in again (estimate). */
const unplug_min = 1;
/** Scenes of findings that are set up again with something unplugged, the latest first, and parts that are tried (estimates: what can be asked in a second). */
const mostScenes = 2;
const mostParts = 14;

const renewCaution = 'a new fuse of the same rating only: while the fault is in it blows again; a test lamp in its place spares fuses';
const clampCaution =
  'a wire that carries a short is hot at once: clamp on first, current for seconds only, key off at the first smoke or smell';

/**
 * What was found amiss looked at again with something unplugged: a short, a leak or a backfeed goes away with what
 * holds it, which is how pieces of one run at the same potential are told apart. Tried are the suspects themselves and
 * what their wires are fastened to.
 *
 * Of currents only the whole one: what flows in one wire tells its own tale.
 *
 * What a suspect blew stays blown when the plug is off, so a new one goes in for the reading.
 *
 * @param suspected ids of suspected parts, likeliest first
 * @param believed  sets of faults that are believed in, likeliest first: what they blow is renewed
 * @param amiss     findings that a sound vehicle would not give
 */
export function unplugging(
  predictor: Predictor,
  suspected: readonly string[],
  amiss: readonly Finding[],
  believed: readonly (readonly Fault[])[] = [],
): readonly Candidate[] {
  const { circuit } = predictor;
  const beside = (id: string) =>
    circuit.attached.flatMap(([end, t]) => (ownerOf(end) === id ? [ownerOf(t)] : ownerOf(t) === id ? [ownerOf(end)] : []));
  const near = suspected.flatMap((id) => (circuit.parts.get(id)?.kind.isWire ? beside(id) : [id]));
  const parts = [...new Set(near)].flatMap((id) => circuit.parts.get(id) ?? []).filter((p) => !p.kind.isWire && !p.kind.supply);
  const isWhole = (o: Observable) => o.of !== 'amperes' || circuit.parts.get(ownerOf(o.at))?.kind.supply !== undefined;
  const scenes = scenesOf(amiss.filter((f) => isWhole(f.observable)));
  return parts.slice(0, mostParts).flatMap((part) => {
    const { minutes, cautions } = accessTo(part);
    return [...scenes].flatMap(([scene, found]) => {
      const setUp = setUpOf(predictor, scene);
      const renews = blownIn(predictor, scene, believed).filter((id) => id !== part.id);
      return found
        .filter(({ observable: o }) => !('load' in o && o.load === part.id) && !('at' in o && ownerOf(o.at) === part.id))
        .map(
          ({ observable }): Candidate => ({
            scene: { ...scene, apart: [part.id] },
            observable,
            minutes: minutes + unplug_min + look_min + setUp.minutes + renew_min * renews.length,
            price: 0,
            cautions: [...cautions, unplugCaution, ...(renews.length > 0 ? [renewCaution] : []), ...setUp.cautions],
            effort: 2,
            ...(renews.length > 0 && { renews }),
          }),
        );
    });
  });
}

/** Extra minutes to get the jaws of a clamp round one wire (estimate). */
const clamp_min = 1;

/**
 * A clamp round each suspected wire, at either end, where something was found amiss: of wires that run to one point only
 * that which is chafed carries the current of the short.
 *
 * @param suspected ids of suspected parts, likeliest first
 */
export function clamping(predictor: Predictor, suspected: readonly string[], amiss: readonly Finding[]): readonly Candidate[] {
  const { circuit } = predictor;
  const wires = suspected.flatMap((id) => circuit.parts.get(id) ?? []).filter((p) => p.kind.isWire);
  return wires.flatMap((wire) => {
    const { minutes, cautions } = accessTo(wire);
    return [...scenesOf(amiss).keys()].flatMap((scene) => {
      const setUp = setUpOf(predictor, scene);
      return wire.kind.terminals(wire).map(
        (t): Candidate => ({
          scene,
          observable: { of: 'amperes', at: `${wire.id}.${t.name}`, instrument: 'clamp' },
          minutes: minutes + clamp_min + setUp.minutes,
          price: 0,
          cautions: [...cautions, clampCaution, ...setUp.cautions],
          effort: 1,
        }),
      );
    });
  });
}

/** The latest scenes in which something was found amiss, as the vehicle stands, with what was found. */
function scenesOf(amiss: readonly Finding[]): ReadonlyMap<Scene, readonly Finding[]> {
  const scenes = new Map<Scene, Finding[]>();
  for (const f of [...amiss].reverse()) {
    const { apart, bridged, swapped } = f.scene;
    if (apart.length + bridged.length + swapped.length > 0 || !isOfScene(f)) continue;
    const same = [...scenes.keys()].find((s) => JSON.stringify(s) === JSON.stringify(f.scene));
    if (same) scenes.get(same)!.push(f);
    else if (scenes.size < mostScenes) scenes.set(f.scene, [f]);
  }
  return scenes;
}

/** How many of those believed in are asked what they blow. */
const mostAsked = 6;

/** Parts that open for good in a scene, as fuses do, though they would not in a sound vehicle. */
function blownIn(predictor: Predictor, scene: Scene, believed: readonly (readonly Fault[])[]): readonly string[] {
  const { vehicles, circuit } = predictor;
  const sound = vehicles.answer(vehicles.healthy, scene).states;
  const opening = [...circuit.parts.values()].filter((p) => p.kind.opensIn !== undefined);
  const blown = believed.slice(0, mostAsked).flatMap((faults) =>
    vehicles.of(faults).flatMap((vehicle) => {
      const { states } = vehicles.answer(vehicle, scene);
      return opening.flatMap((p) => (sameState(states.get(p.id), sound.get(p.id)) || faults.some((f) => f.part === p.id) ? [] : [p.id]));
    }),
  );
  return [...new Set(blown)];
}

/** Something that is there again each time the scene is set up. */
const isOfScene = ({ observable }: Finding): boolean =>
  observable.of === 'load' || observable.of === 'engine' || observable.of === 'amperes' || observable.of === 'volts';
