import type { Step } from '../../src/circuit/edit/steps.ts';
import type { Writable } from '../../src/circuit/edit/written.ts';
import type { Problem } from '../../src/circuit/problem.ts';
import type { ByHand } from '../../src/circuit/wireList/tables.ts';
import type { ListStyle } from '../../src/circuit/wireList/writeWireList.ts';
import type { Completions } from '../../src/report/circuitEdit/completion.ts';
import type { Difference } from '../../src/report/circuitEdit/difference.ts';
import type { Hover } from '../../src/report/circuitEdit/hover.ts';
import type { BenchReading, JoinedIn, PositionRow, Unclear } from '../../src/report/circuitEdit/keyTable.ts';
import type { Mend } from '../../src/report/circuitEdit/mends.ts';
import type { KindSheet } from '../../src/report/kindSheet.ts';
import type { Layout } from '../../src/report/layout/layout.ts';
import type { PartSeen } from '../calls.ts';

/** A problem with its offsets in the text and the mends that a button can apply. */
export type ProblemSeen = { readonly problem: Problem; readonly from: number; readonly to: number; readonly mends: readonly Mend[] };

export type Checked = {
  readonly problems: readonly ProblemSeen[];
  /** Problems that are not among those listed. */
  readonly more: number;
  readonly sound: boolean;
  readonly title: string;
  /** From the text to its problems, ms, in the worker. */
  readonly milliseconds: number;
};
export type Drawn = { readonly layout: Layout; readonly parts: readonly PartSeen[]; readonly assumed: readonly string[] };

/** A kind as a form needs it: its sheet, and what is put down first. */
export type KindForm = KindSheet & { readonly required: Readonly<Record<string, string>> };

/** What a page may ask of the worker of the Circuit view. Plain data only. */
export type EditCalls = {
  check: { takes: { readonly text: string; readonly name: string }; gives: Checked };
  /** Mends of the first problems, in their order. Slower than finding the problems, so it is asked in a pause. */
  mends: { takes: { readonly text: string; readonly name: string }; gives: readonly (readonly Mend[])[] };
  /** The drawing of the text that was checked last; null when that had errors. */
  draw: { takes: { readonly text: string; readonly name: string }; gives: Drawn | null };
  complete: { takes: { readonly text: string; readonly offset: number }; gives: Completions | null };
  hover: { takes: { readonly text: string; readonly offset: number }; gives: Hover | null };
  /** The text after some steps; which of them could not be done stands in `failed`. */
  steps: {
    takes: { readonly text: string; readonly steps: readonly Step[] };
    gives: { readonly text: string; readonly failed: number | undefined };
  };
  kinds: { takes: undefined; gives: readonly KindForm[] };
  /** Terminals that a part would have, with its parameters as typed; empty while they do not read. */
  terminals: { takes: { readonly typed: Readonly<Record<string, string>> }; gives: readonly string[] };
  /** A part as typed into a form, as a step takes it. */
  typed: {
    takes: { readonly typed: Readonly<Record<string, string>> };
    gives: { readonly [key: string]: Writable | undefined };
  };
  /** Ids and ends of a text, for the fields of the forms. */
  ends: {
    takes: { readonly text: string };
    gives: {
      readonly ends: readonly { readonly end: string; readonly what: string }[];
      readonly ids: readonly { readonly id: string; readonly what: string }[];
      readonly next: Readonly<Record<string, string>>;
    };
  };
  skeletons: {
    takes: undefined;
    gives: readonly { readonly name: string; readonly title: string; readonly groups: readonly string[] }[];
  };
  skeleton: { takes: { readonly name: string; readonly without: readonly string[] }; gives: string };
  key: {
    takes:
      | { readonly rows: readonly PositionRow[]; readonly joined: JoinedIn }
      | { readonly rows: readonly PositionRow[]; readonly terminals: readonly string[]; readonly readings: readonly BenchReading[] };
    gives: { readonly held: { readonly [key: string]: Writable | undefined }; readonly unclear: readonly Unclear[] };
  };
  import: {
    takes: { readonly bytes: Uint8Array; readonly name: string; readonly byHand: ByHand };
    gives: {
      readonly yaml?: string;
      readonly problems: readonly Problem[];
      readonly wires: number;
      readonly leftOut: number;
      readonly columns: readonly string[];
    };
  };
  export: { takes: { readonly text: string; readonly style: ListStyle }; gives: string };
  compare: { takes: { readonly there: string; readonly here: string }; gives: readonly Difference[] };
};
