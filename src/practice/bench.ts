import type { Circuit } from '../circuit/circuit.ts';
import type { Scene } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import type { Tool } from '../diagnose/candidates.ts';
import type { Finding } from '../diagnose/finding.ts';
import type { Predictor } from '../diagnose/predict.ts';
import { type Fault, worldsOf } from '../faults/fault.ts';
import { network, type PartChange } from '../solve/network.ts';
import type { Action } from './action.ts';
import { Chance, mixedSeed } from './chance.ts';
import type { Complaint } from './complaint.ts';
import type { Trap } from './trap.ts';

/** The vehicle as only the program knows it. */
export type Hidden = {
  readonly circuit: Circuit;
  readonly faults: readonly Fault[];
  readonly complaint: Complaint;
  readonly tools: readonly Tool[];
  readonly seed: number;
};

/** One thing done, and what came of it. */
export type Step = {
  readonly action: Action;
  /** What was seen or read, one sentence without the fault in it. */
  readonly said: string;
  /** In the display of an instrument. */
  readonly figure?: string;
  /** What it cost, and when it was done, minutes since the vehicle came in. */
  readonly minutes: number;
  readonly money: number;
  readonly at: number;
  /** In which it was done, as findings name it. */
  readonly scene: Scene;
  readonly findings: readonly Finding[];
  /** It could not be done: it cost nothing and changed nothing. */
  readonly refused?: true;
  readonly trap?: Trap['id'];
  /** A reading of volts lost over something that carries no current: it proves nothing. */
  readonly idle?: true;
  /** A meter's lead hung on something tied to nothing. */
  readonly floating?: true;
};

/** The apprentice's bench at one moment: immutable; `update` gives the next. */
export type Bench = {
  readonly scene: Scene;
  readonly minutes: number;
  readonly money: number;
  /** Parts that were laid open. */
  readonly open: readonly string[];
  readonly jack: 'volts' | 'amperes';
  /** Wheels are chocked: the starter has turned once. */
  readonly chocked: boolean;
  /** Counts what was moved: a fault that comes and goes is drawn anew by it. */
  readonly handled: number;
  readonly steps: readonly Step[];
  /** Faults named at the end; absent while the search goes on. */
  readonly named?: readonly string[];
};

export function newBench(circuit: Circuit): Bench {
  return { scene: restScene(circuit), minutes: 0, money: 0, open: [], jack: 'volts', chocked: false, handled: 0, steps: [] };
}

/** What is amiss at this moment: of a fault that comes and goes, one of its worlds, drawn by what was moved. */
export function changesNow({ faults, seed }: Hidden, { handled }: Bench): readonly PartChange[] {
  const worlds = worldsOf(faults);
  let left = new Chance(mixedSeed('world', seed, handled)).next();
  for (const w of worlds) {
    left -= w.share;
    if (left < 0) return w.changes;
  }
  return worlds[0]?.changes ?? [];
}

export const netNow = (hidden: Hidden, bench: Bench) => network(hidden.circuit, changesNow(hidden, bench), bench.scene);

/** What the customer told, and everything found since. */
export const findingsOf = ({ complaint }: Hidden, bench: Bench): readonly Finding[] => [
  ...complaint.told,
  ...bench.steps.flatMap((s) => s.findings),
];

/** Everything that an action is answered from. */
export type Around = { readonly hidden: Hidden; readonly predictor: Predictor };
