import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf, restKey } from '../circuit/keySwitchOf.ts';
import type { Problem } from '../circuit/problem.ts';
import type { Scene } from '../circuit/scene.ts';
import { readKeyPlace, readScene, restScene } from '../circuit/scenePhrase.ts';
import { clashes } from '../faults/clashes.ts';
import type { Fault } from '../faults/fault.ts';
import { readFault } from '../faults/faultPhrase.ts';
import type { Args, Option } from './command.ts';

export const faultOption: Option = {
  type: 'string',
  multiple: true,
  value: 'FAULT',
  about: 'a fault to put in, as `detent faults FILE` lists them',
};
export const withOption: Option = {
  type: 'string',
  multiple: true,
  value: 'HAND',
  about: 'something set by hand: `H4 switch on`, `door open`, `pulled F3`',
};
export const keyOption: Option = {
  type: 'string',
  value: 'KEY',
  about: 'where the key stands: `ON`, `75°`, `between ON and START`, `ON after START`, `key out`',
};

/** All `--fault` phrases, read and checked against each other. */
export function faultsGiven(args: Args, circuit: Circuit): { readonly faults: readonly Fault[]; readonly problems: readonly Problem[] } {
  const read = args.texts('fault').map((phrase) => readFault(phrase, circuit, '--fault'));
  const faults = read.flatMap((r) => (r.ok ? [r.value] : []));
  return { faults, problems: [...read.flatMap((r) => r.problems), ...clashes(faults)] };
}

/** The scene of `--key` and `--with`. */
export function sceneGiven(args: Args, circuit: Circuit): { readonly scene: Scene; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  let scene = restScene(circuit);
  for (const phrase of args.texts('with')) {
    const read = readScene(phrase, circuit, '--with');
    problems.push(...read.problems);
    if (read.ok) scene = together(scene, read.value, circuit);
  }
  const key = args.text('key');
  if (key !== undefined) {
    const read = readKeyPlace(key, circuit, '--key');
    problems.push(...read.problems);
    if (read.ok) scene = { ...scene, key: read.value };
  }
  return { scene, problems };
}

/** Two scenes at once: what either sets. */
function together(a: Scene, b: Scene, circuit: Circuit): Scene {
  const lock = keySwitchOf(circuit);
  const moved = lock !== undefined && b.key !== undefined && JSON.stringify(b.key) !== JSON.stringify(restKey(lock.model));
  return {
    ...a,
    ...(moved && b.key && { key: b.key }),
    hand: { ...a.hand, ...b.hand },
    engine: b.engine === 'stopped' ? a.engine : b.engine,
    apart: [...new Set([...a.apart, ...b.apart])],
    bridged: [...a.bridged, ...b.bridged],
    swapped: [...new Set([...a.swapped, ...b.swapped])],
  };
}
