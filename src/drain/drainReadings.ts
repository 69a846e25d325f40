import type { Circuit } from '../circuit/circuit.ts';
import type { Part } from '../circuit/part.ts';
import type { Scene } from '../circuit/scene.ts';
import { type Candidate, handsOn } from '../diagnose/candidates.ts';
import type { Observable } from '../diagnose/finding.ts';
import type { Predictor } from '../diagnose/predict.ts';
import { supplySides } from '../solve/supplySides.ts';
import { keyOffScene } from './keyOff.ts';

/** How a reading of the drain is taken; the order is that of disturbing little first. */
export type Way = 'look' | 'clamp' | 'fuse drop' | 'clamp at a stud' | 'unplug' | 'bench';

/** A reading that can be taken on a vehicle that stands with its key out. */
export type DrainReading = Candidate & { readonly way: Way };

/** Minutes for a further fuse of a box that is open: 30 fuses take about 10 min (estimate). */
const nextFuse_min = 1 / 3;
/** Minutes for a clamp on the minus cable (practice tables, estimate), without the wait. */
const clamp_min = 3;
/** Minutes for a look or listening at a load (estimate). */
const look_min = 0.4;
/** Minutes more to write down the reading before and after something is unplugged (estimate). */
const unplug_min = 1;

export const clampCaution = 'zero the clamp where it will sit, note its arrow; its zero drifts by 10 to 30 mA';
export const fuseCaution = 'touch the test points only: a fuse that is lifted and pushed back wakes what slept';
const studCaution = 'the stud is live and not fused: clamp round the cable, nothing is undone';
const unplugCaution = 'nothing is plugged back while judging: that wakes modules';

/**
 * Readings that keep what sleeps asleep: the battery cable, every fuse, the cable of every generator, and looks at the
 * loads.
 *
 * @param open parts whose covers are off already: a further fuse there takes a third of a minute
 */
export function quietReadings(circuit: Circuit): readonly DrainReading[] {
  const scene = keyOffScene(circuit);
  const found: DrainReading[] = [];
  const add = (way: Way, observable: Observable, minutes: number, cautions: readonly string[]) =>
    found.push({ way, scene, observable, minutes, price: 0, cautions, effort: way === 'look' ? 0 : 1 });
  const cable = batteryCable(circuit);
  if (cable) add('clamp', { of: 'amperes', at: cable, instrument: 'clamp' }, clamp_min, [clampCaution]);
  for (const part of circuit.parts.values()) {
    const { minutes, caution } = part.kind.access(part);
    const near = part.minutes ?? minutes;
    const cautions = caution === undefined ? [] : [caution];
    const ends = part.kind.shunt ? part.kind.terminals(part).map((t) => `${part.id}.${t.name}`) : [];
    if (ends.length === 2) add('fuse drop', { of: 'volts', at: ends[0]!, to: ends[1]!, instrument: 'meter' }, nextFuse_min, [fuseCaution]);
    const generator = part.kind.store ? undefined : part.kind.supply?.(part);
    if (generator && cable)
      add('clamp at a stud', { of: 'amperes', at: `${part.id}.${generator[0]}`, instrument: 'clamp' }, near + 1, [studCaution]);
    if (part.isLoad && part.kind.judge) add('look', { of: 'load', load: part.id }, look_min, cautions.slice(0, 0));
  }
  return found;
}

/** Current at the battery with one of these parts unplugged or pulled: small parts and plugs, not supplies, wires or ground points. */
export function unplugReadings(circuit: Circuit, parts: readonly string[]): readonly DrainReading[] {
  const cable = batteryCable(circuit);
  if (!cable) return [];
  const rest = keyOffScene(circuit);
  return parts.flatMap((id): readonly DrainReading[] => {
    const part = circuit.parts.get(id);
    if (!part || !comesOff(part)) return [];
    const { minutes, caution } = part.kind.access(part);
    const scene: Scene = { ...rest, apart: [id] };
    const cautions = [unplugCaution, ...(caution === undefined ? [] : [caution])];
    const observable: Observable = { of: 'amperes', at: cable, instrument: 'clamp' };
    return [{ way: 'unplug', scene, observable, minutes: (part.minutes ?? minutes) + unplug_min, price: 0, cautions, effort: 2 }];
  });
}

/** What an ohmmeter says of suspected parts on the bench. */
export function benchReadings(predictor: Predictor, parts: readonly string[]): readonly DrainReading[] {
  const out = keyOffScene(predictor.circuit).key;
  return handsOn(predictor, parts, ['ohmmeter'])
    .filter(({ observable: o }) => o.of === 'ohms' && (o.angle === undefined || out === undefined || o.angle === out.angle))
    .map((c) => ({ ...c, way: 'bench' }));
}

const comesOff = (part: Part): boolean =>
  !part.kind.isWire && !part.kind.store && part.kind.terminals(part).length > 1 && part.kind.poles(part).length > 0;

/** Where a clamp goes round: the battery's cable to the body, which is plus where plus is grounded. */
export const batteryCable = (circuit: Circuit): string | undefined => supplySides(circuit)?.grounded;
