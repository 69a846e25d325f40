import type { Circuit } from '../src/circuit/circuit.ts';
import { readCircuit } from '../src/circuit/readCircuit.ts';
import { afterRepair } from '../src/diagnose/afterRepair.ts';
import { type Diagnosis, diagnose } from '../src/diagnose/diagnose.ts';
import { readFinding } from '../src/diagnose/findingPhrase.ts';
import type { Job } from '../src/diagnose/jobFile.ts';
import { jobFindings } from '../src/diagnose/jobFindings.ts';
import { Predictor } from '../src/diagnose/predict.ts';
import { partKinds } from '../src/parts/index.ts';
import { diagnosisView } from '../src/report/diagnosisView.ts';
import { seenTable } from '../src/report/seenTable.ts';
import type { CauseAsking, CauseCalls, CauseName, CircuitText, PhraseRead, SearchSeen } from './causeCalls.ts';
import type { Notes } from './session/session.ts';

/** The circuit in use; what was worked out about it stays until another comes. */
let held: { readonly key: string; readonly circuit: Circuit; predictor?: Predictor } | undefined;

function sound({ name, text }: CircuitText): { readonly circuit: Circuit; readonly predictor: () => Predictor } {
  const key = `${name}\n${text}`;
  if (held?.key !== key) {
    const read = readCircuit(text, name, partKinds);
    if (!read.ok) throw new Error(`${name} has problems; nothing can be searched in it`);
    held = { key, circuit: read.value };
  }
  const own = held;
  return {
    circuit: own.circuit,
    predictor: () => {
      own.predictor ??= new Predictor(own.circuit);
      return own.predictor;
    },
  };
}

function phraseRead(text: string, circuit: Circuit, file: string): PhraseRead {
  const read = readFinding(text, circuit, file);
  return { text, findings: read.ok ? read.value.map((f) => f.phrase) : [], problems: read.problems };
}

const written = (lines: readonly string[]) => lines.map((text, k) => ({ text, line: k + 1 }));

/** The notes as a job file has them, without the lines that cannot be read. */
function jobOf(notes: Notes, circuit: Circuit): Job {
  const reads = (text: string) => readFinding(text, circuit).ok;
  return {
    circuit: { path: '' },
    vehicle: notes.vehicle,
    complaint: notes.complaint,
    history: notes.history,
    findings: written(notes.findings.filter(reads)),
    repair: written(notes.repair.filter((t) => !t.includes(':') || reads(t))),
  };
}

type Answers = {
  [N in CauseName]: (takes: CauseCalls[N]['takes'], part: (gives: CauseCalls[N]['gives']) => void) => CauseCalls[N]['gives'];
};
const answers: Answers = {
  search: ({ circuit: choice, notes, tools }, part) => {
    const { circuit, predictor } = sound(choice);
    const told = jobFindings(jobOf(notes, circuit), circuit, 'job');
    const after = afterRepair(predictor(), told.after, told.notes);
    const reopened = after.amiss.length > 0;
    const all = reopened ? told.after : [...told.findings, ...told.exchanges, ...told.after];
    const seen = (diagnosis: Diagnosis): SearchSeen => ({
      view: diagnosisView(circuit, diagnosis, after.tableRun && after.keyOffRead),
      read: notes.findings.map((text) => phraseRead(text, circuit, 'finding')),
      repair: notes.repair.map((text) => (text.includes(':') ? phraseRead(text, circuit, 'repair') : { text, findings: [], problems: [] })),
      amiss: after.amiss.map((f) => f.phrase),
      tableRun: after.tableRun,
      keyOffRead: after.keyOffRead,
    });
    const early = { state: 'open', text: '', proof: [], unexplained: [] } as const;
    const onBelief = ({ suspects, findings }: Pick<Diagnosis, 'suspects' | 'findings'>) =>
      part(seen({ suspects, findings, verdict: early, groups: [], next: [] }));
    return seen(diagnose(circuit, all, { tools, history: notes.history, onBelief }, predictor()));
  },
  seen: ({ circuit }) => seenTable(sound(circuit).circuit),
  phrase: ({ circuit, text }) => phraseRead(text, sound(circuit).circuit, 'finding'),
};

// The DOM library types `self` as a window; this is the only line that must know better.
const port = self as unknown as { onmessage: (e: MessageEvent<CauseAsking>) => void; postMessage: (a: unknown) => void };
port.onmessage = ({ data: { id, name, takes } }) => {
  try {
    const part = (gives: unknown) => port.postMessage({ id, ok: true, gives, part: true });
    port.postMessage({ id, ok: true, gives: answers[name](takes as never, part) });
  } catch (e) {
    port.postMessage({ id, ok: false, message: e instanceof Error ? e.message : String(e) });
  }
};
