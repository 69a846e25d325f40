import type { KeyPlace, Scene, State } from '../circuit/scene.ts';
import type { LoadSeen } from '../solve/loads.ts';
import type { PartChange } from '../solve/network.ts';
import type { OperatingPoint } from '../solve/operatingPoint.ts';
import { type EngineFed, type EngineMotion, standing } from './engineMotion.ts';

/** A fault that is there only sometimes: drawn anew whenever the key or something else is moved. */
export type Chance = { readonly share: number; readonly changes: readonly PartChange[] };
/** The faults in a circuit that is played: those that are always there, and those that come and go. */
export type Put = { readonly changes: readonly PartChange[]; readonly sometimes: readonly Chance[] };

/** Everything that goes on from one moment to the next; plain data, so that a story can be cut and continued. */
export type Moment = {
  /** Seconds since the story began. */
  readonly t: number;
  readonly scene: Scene;
  /** What is missing is as the part leaves the shop. */
  readonly states: ReadonlyMap<string, State>;
  readonly engine: EngineMotion;
  /** Discrete changes on their way: part -> what it goes to, and when. */
  readonly pending: ReadonlyMap<string, { readonly to: State; readonly due: number }>;
  /** Which of the sometimes-faults are there now. */
  readonly present: readonly boolean[];
  readonly chance: number;
  /** The key has been in a position that may not be entered twice without going back. */
  readonly locked: boolean;
  /** Discrete changes of the last second, for telling chatter. */
  readonly recent: readonly { readonly t: number; readonly part: string }[];
};

/** The circuit at one moment of a play. Two samples may have the same time: just before a change, and just after. */
export type Sample = {
  readonly t: number;
  readonly key: KeyPlace | undefined;
  /** `cranks`, `runs`, `runs down`, `still`; '' without an engine. */
  readonly engine: string;
  /** 1/min. */
  readonly speed: number;
  readonly motion: EngineMotion;
  readonly fed: EngineFed;
  readonly loads: readonly LoadSeen[];
  /** From here to the next sample the round that began then repeats: what changes in it comes and goes. */
  readonly roundFrom?: number;
  readonly at: OperatingPoint;
};

/** Something that happened; `part` is '' for what a person did, `engine` for the engine. */
export type PlayEvent = { readonly t: number; readonly what: string; readonly part: string };

/** A corner of the key's travel: between two of them it turns evenly. */
export type Corner = { readonly t: number; readonly angle: number };

/** The first moment of a story: nothing on, every part as it leaves the shop. */
export function firstMoment(scene: Scene, seed: number): Moment {
  return {
    t: 0,
    scene,
    states: new Map(),
    engine: standing,
    pending: new Map(),
    present: [],
    chance: seed | 0,
    locked: false,
    recent: [],
  };
}
