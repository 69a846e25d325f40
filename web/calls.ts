import type { Problem } from '../src/circuit/problem.ts';
import type { EngineState, KeyPlace, Scene } from '../src/circuit/scene.ts';
import type { FunctionGroup } from '../src/report/functionGroups.ts';
import type { ContactSectors } from '../src/report/keySectors.ts';
import type { Layout } from '../src/report/layout/layout.ts';
import type { Moment } from '../src/report/moment.ts';
import type { ReadingText } from '../src/report/readingText.ts';
import type { Strip } from '../src/report/strip.ts';
import type { WayDown } from '../src/report/wayDown.ts';
import type { PositionTable } from '../src/solve/positionTable.ts';
import type { CircuitChoice, Job, Meter, Notes } from './session/session.ts';

export type LibraryEntry = { readonly name: string; readonly title: string; readonly about: string };

export type PartSeen = {
  readonly id: string;
  /** What people call it, and what it is. */
  readonly name: string;
  readonly what: string;
  readonly place: string;
  readonly terminals: readonly string[];
  readonly isWire: boolean;
  readonly isLoad: boolean;
};

export type FaultDetail = {
  readonly dimension: 'resistance' | 'angle' | 'current' | 'share' | 'power' | 'time';
  readonly default: number;
  readonly min: number;
  readonly max: number;
  /** What stands for the whole range when hypotheses are made: where a slider is of use. */
  readonly grades: readonly number[];
};

/** A fault that can be put in, as a list shows it. */
export type FaultChoice = {
  readonly part: string;
  /** With the usual figure where one is needed: `W7 0.5 Ω`, `S1.30-15 open at ON`. */
  readonly phrase: string;
  readonly text: string;
};

/** All of a circuit that does not depend on a scene. */
export type CircuitSeen = {
  readonly title: string;
  readonly about: string;
  readonly cautions: readonly string[];
  readonly parts: readonly PartSeen[];
  readonly key?: {
    readonly id: string;
    readonly positions: readonly { name: string; angle: number; keyOut: boolean; springsTo?: string }[];
  };
  readonly switches: readonly { readonly id: string; readonly name: string; readonly settings: readonly string[] }[];
  readonly hasEngine: boolean;
  readonly rest: Scene;
  readonly layout: Layout;
  /** Of a circuit with many tracks: those by which it tells its story at first sight. */
  readonly story?: Layout;
  /** Of a circuit with many tracks: its loads by what they are for. */
  readonly functions?: readonly FunctionGroup[];
  readonly faults: readonly FaultChoice[];
};

/** A fault that is in, in words. `problem` when the phrase fits nothing in this circuit. */
export type FaultIn = {
  readonly phrase: string;
  /** Part or contact that it sits in, and the words without the figure: `S1.30-15`, `open at ON`. */
  readonly subject: string;
  readonly words: string;
  readonly part: string;
  readonly text: string;
  readonly detail?: FaultDetail & { readonly now: number };
  readonly problem?: Problem;
};

type About = { readonly choice: CircuitChoice; readonly faults: readonly string[] };

/** What the page may ask of the worker: name -> what goes in and what comes back. Plain data only. */
export type Calls = {
  library: { takes: undefined; gives: readonly LibraryEntry[] };
  circuit: {
    takes: { readonly choice: CircuitChoice };
    gives: { readonly text: string; readonly problems: readonly Problem[]; readonly circuit?: CircuitSeen };
  };
  /** A fault to begin with: the engine fires and dies on release. */
  first: { takes: { readonly choice: CircuitChoice }; gives: string | null };
  /** A drawing of what belongs to some loads alone. */
  layout: { takes: { readonly choice: CircuitChoice; readonly loads: readonly string[] }; gives: Layout };
  play: {
    takes: About & { readonly story: string; readonly seed: number };
    gives: { readonly strip?: Strip; readonly problems: readonly Problem[] };
  };
  way: { takes: About & { readonly scene: Scene; readonly load: string }; gives: WayDown | null };
  /** The drawing in words, a sentence for each load. */
  words: { takes: About & { readonly scene: Scene }; gives: readonly string[] };
  'job-file': { takes: { readonly job: Job }; gives: string };
  'read-job': {
    takes: { readonly text: string };
    gives: { readonly circuit?: CircuitChoice; readonly notes: Notes; readonly faults: readonly string[] } | null;
  };
  table: {
    takes: About & {
      readonly between: boolean;
      readonly hand: Scene['hand'];
      readonly apart: readonly string[];
      readonly bridged: Scene['bridged'];
      readonly swapped: readonly string[];
    };
    gives: {
      readonly table: PositionTable;
      readonly sectors: readonly ContactSectors[];
      readonly faults: readonly FaultIn[];
      readonly problems: readonly Problem[];
    };
  };
  moment: {
    takes: About & { readonly scene: Scene; readonly load?: string | undefined };
    gives: { readonly moment: Moment; readonly line: string; readonly words: string; readonly milliseconds: number };
  };
  engine: { takes: About & { readonly scene: Scene }; gives: EngineState };
  reading: { takes: About & { readonly scene: Scene; readonly meter: Meter }; gives: ReadingText };
  release: { takes: About & { readonly key: KeyPlace }; gives: KeyPlace };
  scene: {
    takes: { readonly choice: CircuitChoice; readonly words: string };
    gives: { readonly scene?: Scene; readonly problems: readonly Problem[] };
  };
};
export type Name = keyof Calls;
export type Asking<N extends Name = Name> = { id: number; name: N; takes: Calls[N]['takes'] };
export type Answer = { id: number; ok: true; gives: Calls[Name]['gives'] } | { id: number; ok: false; message: string };
