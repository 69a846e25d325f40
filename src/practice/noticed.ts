import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Scene } from '../circuit/scene.ts';
import { stagesOf } from '../diagnose/candidates.ts';
import type { EngineWord, Finding, Observable, Seen, SeenWord } from '../diagnose/finding.ts';
import { findingText } from '../diagnose/findingText.ts';
import type { Prediction, Predictor } from '../diagnose/predict.ts';
import type { Fault } from '../faults/fault.ts';

/** One thing that a driver can notice: a load or the engine in one place of the key, with the fault and without. */
export type Noticed = {
  readonly scene: Scene;
  readonly observable: Observable & ({ readonly of: 'load' } | { readonly of: 'engine' });
  readonly word: string;
  readonly healthy: string;
  /** With a fault that comes and goes: the other word, and the share of the time it is so. */
  readonly sometimes?: { readonly word: string; readonly share: number };
};

/** What is seen of a load or the engine, in the words of findings. */
export function wordOf(is: Prediction): string {
  if (is.of === 'load') return is.verdict === 'chatters' ? 'comes and goes' : is.verdict;
  if (is.of !== 'engine') return '';
  if (is.cranks) return is.alive ? 'fires' : is.slowly ? 'cranks slowly' : 'cranks';
  return is.turning ? (is.alive ? 'runs' : 'dies') : 'still';
}

export function seenOf(observable: Observable, word: string): Seen {
  return observable.of === 'engine' ? { engine: word as EngineWord } : { word: word as SeenWord };
}

export function findingOf(circuit: Circuit, scene: Scene, observable: Observable, seen: Seen): Finding {
  return { scene, observable, seen, phrase: findingText({ scene, observable, seen }, circuit) };
}

const known = new WeakMap<Predictor, Map<string, readonly Noticed[]>>();

/**
 * Everything a driver could notice: every load that can be seen or heard, and the engine, at every detent and where the
 * key springs back to, solved whole. A place between two detents is the technician's.
 */
export function noticeable(predictor: Predictor, faults: readonly Fault[]): readonly Noticed[] {
  const own = known.get(predictor) ?? new Map<string, readonly Noticed[]>();
  known.set(predictor, own);
  const key = faults.map((f) => f.phrase).join(' + ');
  const before = own.get(key);
  if (before) return before;
  const made = predictor.vehicles.exactly(() => seenBy(predictor, faults));
  own.set(key, made);
  return made;
}

const sound: readonly Fault[] = [];

function seenBy(predictor: Predictor, faults: readonly Fault[]): readonly Noticed[] {
  const { circuit } = predictor;
  const detents = new Set(keySwitchOf(circuit)?.model.positions.map((p) => p.angle) ?? []);
  return stagesOf(predictor).flatMap(({ scene, looks }) => {
    if (scene.key && !detents.has(scene.key.angle)) return [];
    return looks.flatMap(({ observable }): readonly Noticed[] => {
      if (observable.of !== 'load' && observable.of !== 'engine') return [];
      if (observable.of === 'load' && circuit.parts.get(observable.load)?.kind.driver === undefined) return [];
      const worlds = predictor.expected(faults, { scene, observable }).map(({ share, is }) => ({ share, word: wordOf(is) }));
      const healthy = wordOf(predictor.expected(sound, { scene, observable })[0]!.is);
      const [main, ...rest] = [...worlds].sort((a, b) => b.share - a.share);
      const other = rest.find((w) => w.word !== main!.word);
      const share = rest.filter((w) => w.word !== main!.word).reduce((sum, w) => sum + w.share, 0);
      return [{ scene, observable, word: main!.word, healthy, ...(other && { sometimes: { word: other.word, share } }) }];
    });
  });
}

/** Differs from the healthy vehicle, always or at times. */
export const isAmiss = (n: Noticed): boolean => n.word !== n.healthy || n.sometimes !== undefined;

/** As a finding: what comes and goes is told so. */
export function told(circuit: Circuit, n: Noticed): Finding {
  const word =
    n.sometimes && n.observable.of === 'load' ? 'comes and goes' : n.sometimes && n.word === n.healthy ? n.sometimes.word : n.word;
  return findingOf(circuit, n.scene, n.observable, seenOf(n.observable, word));
}
