import type { Scene } from '../../src/circuit/scene.ts';

export const views = ['bench', 'cause', 'drain', 'practise', 'sheet', 'circuit'] as const;
export type View = (typeof views)[number];

/** Which circuit a job works on. A file's text travels with the job, so that a job never loses its wiring. */
export type CircuitChoice =
  | { readonly from: 'library'; readonly name: string }
  | { readonly from: 'file'; readonly name: string; readonly text: string };

/** How the bench shows the circuit; kept, but no step of undo. */
export type Look = {
  readonly show: 'healthy' | 'faulty' | 'difference';
  /** The chosen load or part: its feed and return stand out. */
  readonly load?: string | undefined;
  readonly part?: string | undefined;
  /** What fills a narrow screen. */
  readonly panel: 'key' | 'drawing' | 'table';
  /** Rows for the stretches between the detents. */
  readonly between: boolean;
  /** Only what belongs to the chosen load. */
  readonly only: boolean;
  /** Every track of a large circuit, not only those that tell its story. */
  readonly all?: boolean;
  /** Folded to what these functions need, by the names of the circuit's groups. */
  readonly functions?: readonly string[] | undefined;
  /** The strip chart is open; its engine stands as the story says. */
  readonly playing: boolean;
  /** On a narrow screen: the whole drawing instead of one load's way. */
  readonly whole: boolean;
};

/** Leads of the meter: terminals, and which instrument hangs on them. */
export type Meter = {
  readonly instrument: 'volts' | 'test lamp' | 'ohms' | 'clamp' | 'amperes' | 'jumper';
  readonly red?: string | undefined;
  readonly black?: string | undefined;
  /** In the hand: the next click on the drawing puts it down. */
  readonly placing?: 'red' | 'black' | undefined;
  readonly open: boolean;
};

/** What was written down about the vehicle, in the words of the job file. */
export type Notes = {
  readonly vehicle: string;
  readonly complaint: string;
  readonly history: readonly string[];
  readonly findings: readonly string[];
  readonly repair: readonly string[];
};

/** One vehicle on one day. Immutable plain data: it is kept as it stands. */
export type Job = {
  readonly id: string;
  /** Day it was begun, `2026-11-25`. */
  readonly day: string;
  readonly circuit: CircuitChoice;
  /** Absent until the circuit has been read: then its rest scene. */
  readonly scene?: Scene | undefined;
  /** The other half of a comparison. */
  readonly beside?: { readonly scene: Scene; readonly faults: readonly string[] } | undefined;
  /** Fault phrases that are put in. */
  readonly faults: readonly string[];
  readonly notes: Notes;
  readonly look: Look;
  readonly meter: Meter;
  /** What other views keep with the job, by their own name. Plain data. */
  readonly more: Readonly<Record<string, unknown>>;
};

export type Session = {
  readonly view: View;
  readonly job: Job;
};

export const noNotes: Notes = { vehicle: '', complaint: '', history: [], findings: [], repair: [] };

/** A job as it begins. @param id unique among the kept jobs */
export function newJob(id: string, day: string, circuit: CircuitChoice): Job {
  return {
    id,
    day,
    circuit,
    faults: [],
    notes: noNotes,
    look: { show: 'difference', panel: 'key', between: true, only: false, playing: false, whole: false },
    meter: { instrument: 'volts', open: false },
    more: {},
  };
}
