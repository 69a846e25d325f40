import type { Problem } from '../src/circuit/problem.ts';
import type { Tool } from '../src/diagnose/candidates.ts';
import type { DiagnosisView } from '../src/report/diagnosisView.ts';
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

/** What the page may ask of the second worker. Plain data only. */
export type CauseCalls = {
  /** Suspects come first as a part, the next readings with the whole. */
  search: { takes: { readonly circuit: CircuitText; readonly notes: Notes; readonly tools: readonly Tool[] }; gives: SearchSeen };
  /** The position table as a sheet to fill in. */
  seen: { takes: { readonly circuit: CircuitText }; gives: SeenTable };
  /** One typed finding. */
  phrase: { takes: { readonly circuit: CircuitText; readonly text: string }; gives: PhraseRead };
};
export type CauseName = keyof CauseCalls;
export type CauseAsking<N extends CauseName = CauseName> = { id: number; name: N; takes: CauseCalls[N]['takes'] };
