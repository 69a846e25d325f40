import type { Scene } from '../../src/circuit/scene.ts';
import type { Tool } from '../../src/diagnose/candidates.ts';
import type { Action, HintStrength } from '../../src/practice/action.ts';
import type { ClassRow } from '../../src/practice/classSheet.ts';
import type { Difficulty } from '../../src/practice/exercise.ts';
import type { PracticeChart } from '../../src/report/practiceChart.ts';

/** Which exercise: found again by the generator, or from an instructor's file. Nothing here names a fault. */
export type Which =
  | { readonly from: 'seed'; readonly level: number; readonly seed: number; readonly candidate?: number | undefined }
  | { readonly from: 'file'; readonly file: string; readonly number: number; readonly pass: string };

export type About = { readonly text: string; readonly name: string; readonly which: Which };

/** An exercise as the apprentice may know it. */
export type Begun = {
  readonly level: number;
  readonly title: string;
  readonly seed: number;
  readonly candidate: number;
  readonly digest: string;
  readonly complaint: string;
  readonly tools: readonly string[];
  readonly difficulty: Difficulty;
};
export type TableBegun = {
  readonly level: number;
  readonly title: string;
  readonly seed: number;
  readonly given: string;
  readonly questions: readonly {
    readonly load: string;
    readonly name: string;
    readonly position: string;
    readonly choices: readonly string[];
  }[];
};

export type StepSeen = {
  readonly at: string;
  readonly did: string;
  readonly said: string;
  readonly figure: string;
  readonly cost: string;
  readonly money: number;
  readonly trap: boolean;
};
export type BenchSeen = {
  readonly scene: Scene;
  readonly line: string;
  readonly minutes: number;
  readonly money: number;
  readonly jack: 'volts' | 'amperes';
  readonly steps: readonly StepSeen[];
  readonly ended: boolean;
};

export type DebriefSeen = {
  readonly verdict: string;
  readonly hidden: string;
  readonly hiddenFaults: readonly string[];
  readonly chart: PracticeChart;
  readonly rivals: number;
  readonly steps: readonly {
    readonly number: number;
    readonly at: string;
    readonly did: string;
    readonly read: string;
    readonly worth: string;
    readonly left: number;
    readonly redundant: boolean;
  }[];
  /** How long the technician's way was, and the apprentice's where it was shorter. */
  readonly way: string;
  readonly technician: readonly string[];
  readonly notes: readonly string[];
  readonly misconceptions: readonly {
    readonly belief: string;
    readonly condition: string;
    readonly task: string;
    readonly source: string;
  }[];
  readonly marks: readonly { readonly about: string; readonly points: number; readonly of: number }[];
  readonly hints: number;
  readonly total: number;
  readonly stopped: boolean;
  readonly sheet: string;
  /** For the class sheet, still without a name. */
  readonly row: ClassRow;
};

/** Heard while an answer is under way, in words. */
export type Working = { readonly working: string };
type Refused = { readonly ok: false; readonly why: string };

/** What an apprentice may see of a set before an exercise of it is begun. */
export type SetSeen = {
  readonly title: string;
  readonly exercises: readonly {
    readonly number: number;
    /** File name of its circuit, without folders. */
    readonly circuit: string;
    readonly level: number;
    readonly complaint: string;
    readonly minutes: number;
    readonly wantsPass: boolean;
  }[];
};

type OnCircuit = Omit<About, 'which'>;
/** A set with something put into it. */
type SetMade = { readonly ok: true; readonly set: string; readonly said: string };

/** What the page may ask of the worker of the Practise view. The faults stay in the worker until the debrief. */
export type PractiseCalls = {
  begin: { takes: About; gives: { readonly ok: true; readonly value: Begun } | Refused | Working };
  /** Levels that the circuit has any fault for. */
  levels: { takes: OnCircuit; gives: readonly number[] };
  table: { takes: OnCircuit & { readonly level: 1 | 2; readonly seed: number }; gives: TableBegun };
  answer: {
    takes: OnCircuit & { readonly level: 1 | 2; readonly seed: number; readonly answers: readonly string[] };
    gives: { readonly score: number; readonly right: readonly string[] };
  };
  bench: { takes: About & { readonly actions: readonly Action[] }; gives: BenchSeen };
  /** A typed line, or what a button would type. */
  read: { takes: OnCircuit & { readonly line: string }; gives: { readonly ok: true; readonly value: Action } | Refused };
  hint: { takes: About & { readonly actions: readonly Action[]; readonly strength: HintStrength }; gives: string };
  debrief: { takes: About & { readonly actions: readonly Action[] }; gives: { readonly ok: true; readonly value: DebriefSeen } | Working };
  /** Instructor: the set with one exercise more, whose faults are named; sealed. */
  hide: {
    takes: OnCircuit & Making & { readonly faults: readonly string[]; readonly tools: readonly Tool[] };
    gives: SetMade | Refused | Working;
  };
  /** Instructor: the set with exercises of a level more, as the seeds give them. */
  make: { takes: OnCircuit & Making & { readonly many: number }; gives: SetMade | Refused | Working };
  set: { takes: { readonly text: string }; gives: { readonly ok: true; readonly value: SetSeen } | Refused };
  /** The set without one of its exercises; empty when none is left. */
  without: { takes: { readonly text: string; readonly number: number }; gives: string };
};
type Making = { readonly level: number; readonly seed: number; readonly pass: string; readonly set: string };
