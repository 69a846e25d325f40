import type { Problem } from '../src/circuit/problem.ts';
import type { Tool } from '../src/diagnose/candidates.ts';
import type { DiagnosisView } from '../src/report/diagnosisView.ts';
import type { DrainView } from '../src/report/drainView.ts';
import type { JobSheet } from '../src/report/jobSheet.ts';
import type { SheetFilled } from '../src/report/jobSheetHtml.ts';
import type { SeenTable } from '../src/report/seenTable.ts';
import type { Notes } from './session/session.ts';

/** A circuit as its text: the worker of the search has no library of its own. */
export type CircuitText = { readonly name: string; readonly text: string };

/** One line of the notes as it was understood: canonical phrases, or what is wrong with it. */
export type PhraseRead = { readonly text: string; readonly findings: readonly string[]; readonly problems: readonly Problem[] };

export type SearchSeen = {
  readonly view: DiagnosisView;
  /** Findings of the notes, line by line. */
  readonly read: readonly PhraseRead[];
  /** Lines of the repair, line by line; a line without a colon is a note. */
  readonly repair: readonly PhraseRead[];
  /** Seen after the repair and not as it ought to be: a second fault. */
  readonly amiss: readonly string[];
  readonly tableRun: boolean;
  readonly keyOffRead: boolean;
};

export type DrainAsked = {
  readonly circuit: CircuitText;
  /** Finding phrases. */
  readonly findings: readonly string[];
  /** The hypothesis, a fault phrase. */
  readonly suspect?: string | undefined;
  /** °C, the circuit's own unless given. */
  readonly ambient?: number | undefined;
  /** px that the battery's curve is drawn for. */
  readonly curve: readonly [width: number, height: number];
  /** Name of the log that was read; absent for none. */
  readonly log?: string | undefined;
};
export type DrainSeen = {
  readonly view: DrainView;
  /** The terminal that the clamp goes round, and how a reading there begins: `key out: `, ` at G1.-`. */
  readonly cable: string;
  readonly head: string;
  readonly ambient: number;
  readonly problems: readonly Problem[];
  /** Both terminals of every fuse, for its millivolts. */
  readonly fuseEnds: Readonly<Record<string, readonly [string, string]>>;
};
export type LogSeen = { readonly rows: number; readonly done: boolean; readonly problems: readonly Problem[] };

/** What the page may ask of the second worker. Plain data only. */
export type CauseCalls = {
  /** Suspects come first as a part, the next readings with the whole. */
  search: { takes: { readonly circuit: CircuitText; readonly notes: Notes; readonly tools: readonly Tool[] }; gives: SearchSeen };
  /** The position table as a sheet to fill in. */
  seen: { takes: { readonly circuit: CircuitText }; gives: SeenTable };
  drain: { takes: DrainAsked; gives: DrainSeen };
  /** A measured log; it stays in the worker under its name. Rows so far come as parts. */
  log: { takes: { readonly name: string; readonly file: Blob }; gives: LogSeen };
  /** The job on one sheet; undefined faults leave it a draft. */
  sheet: { takes: { readonly circuit: CircuitText; readonly notes: Notes; readonly tools: readonly Tool[] }; gives: JobSheet };
  /** The same as one HTML file. */
  html: { takes: { readonly sheet: JobSheet; readonly filled: SheetFilled }; gives: string };
  /** One typed finding. */
  phrase: { takes: { readonly circuit: CircuitText; readonly text: string }; gives: PhraseRead };
};
export type CauseName = keyof CauseCalls;
export type CauseAsking<N extends CauseName = CauseName> = { id: number; name: N; takes: CauseCalls[N]['takes'] };
