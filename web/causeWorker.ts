import type { Circuit } from '../src/circuit/circuit.ts';
import { readCircuit } from '../src/circuit/readCircuit.ts';
import { sceneText } from '../src/circuit/scenePhrase.ts';
import { type AfterRepair, afterRepair } from '../src/diagnose/afterRepair.ts';
import { type DiagnoseOptions, type Diagnosis, diagnose } from '../src/diagnose/diagnose.ts';
import { readFinding } from '../src/diagnose/findingPhrase.ts';
import type { Job } from '../src/diagnose/jobFile.ts';
import { type JobFindings, jobFindings } from '../src/diagnose/jobFindings.ts';
import { Predictor } from '../src/diagnose/predict.ts';
import { drainAnswer } from '../src/drain/drainAnswer.ts';
import { batteryCable } from '../src/drain/drainReadings.ts';
import { keyOffScene } from '../src/drain/keyOff.ts';
import { type Log, LogReader } from '../src/drain/log/readLog.ts';
import { readFault } from '../src/faults/faultPhrase.ts';
import { partKinds } from '../src/parts/index.ts';
import { diagnosisView } from '../src/report/diagnosisView.ts';
import { drainCurve } from '../src/report/drainCurve.ts';
import { drainView } from '../src/report/drainView.ts';
import { leading } from '../src/report/drainWords.ts';
import { jobSheet } from '../src/report/jobSheet.ts';
import { jobSheetHtml } from '../src/report/jobSheetHtml.ts';
import { seenTable } from '../src/report/seenTable.ts';
import type {
  CauseAsking,
  CauseCalls,
  CauseName,
  CircuitText,
  DrainAsked,
  DrainSeen,
  LogSeen,
  PhraseRead,
  SearchSeen,
} from './causeCalls.ts';
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

type Searched = CauseCalls['search']['takes'];

function stands({ circuit: choice, notes }: Searched): { readonly told: JobFindings; readonly after: AfterRepair } {
  const { circuit, predictor } = sound(choice);
  const told = jobFindings(jobOf(notes, circuit), circuit, 'job');
  return { told, after: afterRepair(predictor(), told.after, told.notes) };
}

/** The last search with what it was about: the sheet needs the one that the screen shows. */
let last: { readonly key: string; readonly diagnosis: Diagnosis } | undefined;

function diagnosed(
  { circuit: choice, notes, tools }: Searched,
  told: JobFindings,
  after: AfterRepair,
  onBelief?: DiagnoseOptions['onBelief'],
): Diagnosis {
  const { circuit, predictor } = sound(choice);
  const key = JSON.stringify([choice, notes.findings, notes.history, notes.repair, tools]);
  if (last?.key === key) return last.diagnosis;
  // A fault found after the repair is another one: only what was seen since then speaks of it.
  const all = after.amiss.length > 0 ? told.after : [...told.findings, ...told.exchanges, ...told.after];
  const diagnosis = diagnose(circuit, all, { tools, history: notes.history, ...(onBelief && { onBelief }) }, predictor());
  last = { key, diagnosis };
  return diagnosis;
}

/** The log that was read last. */
let logHeld: { readonly name: string; readonly log: Log } | undefined;

async function readLog({ name, file }: CauseCalls['log']['takes'], part: (gives: LogSeen) => void): Promise<LogSeen> {
  const reader = new LogReader(name);
  const pieces = file.stream().pipeThrough(new TextDecoderStream()).getReader();
  let said = performance.now();
  for (let piece = await pieces.read(); !piece.done; piece = await pieces.read()) {
    reader.push(piece.value);
    if (performance.now() - said < 200) continue;
    said = performance.now();
    part({ rows: reader.rows, done: false, problems: [] });
  }
  const read = reader.end();
  logHeld = read.ok ? { name, log: read.value } : undefined;
  return { rows: reader.rows, done: true, problems: read.ok ? read.value.warnings : read.problems };
}

function drainSeen({ circuit: choice, findings: told, suspect: thought, ambient, curve, log }: DrainAsked): DrainSeen {
  const own = sound(choice);
  const circuit = ambient === undefined ? own.circuit : { ...own.circuit, ambient };
  const reads = told.map((text) => readFinding(text, circuit));
  const suspect = thought === undefined ? undefined : readFault(thought, circuit, 'hypothesis');
  const answer = drainAnswer(
    circuit,
    {
      findings: reads.flatMap((r) => (r.ok ? r.value : [])),
      ...(suspect?.ok && { suspect: suspect.value }),
      ...(log !== undefined && logHeld?.name === log && { log: logHeld.log }),
    },
    ambient === undefined ? own.predictor() : new Predictor(circuit),
  );
  const { battery } = leading(answer);
  const view = drainView(answer);
  const fuses = [...circuit.parts.values()].filter((p) => p.kind.shunt !== undefined);
  return {
    view: battery ? { ...view, curve: drainCurve(battery, answer.healthyBattery ?? battery, ...curve) } : view,
    cable: batteryCable(circuit) ?? '',
    head: sceneText(keyOffScene(circuit), circuit),
    ambient: circuit.ambient,
    problems: suspect?.problems ?? [],
    fuseEnds: Object.fromEntries(
      fuses.map((p) => [p.id, p.kind.terminals(p).map((t) => `${p.id}.${t.name}`) as unknown as readonly [string, string]]),
    ),
  };
}

type Answers = {
  [N in CauseName]: (
    takes: CauseCalls[N]['takes'],
    part: (gives: CauseCalls[N]['gives']) => void,
  ) => CauseCalls[N]['gives'] | Promise<CauseCalls[N]['gives']>;
};
const answers: Answers = {
  search: (takes, part) => {
    const { circuit, notes } = takes;
    const { told, after } = stands(takes);
    const own = sound(circuit).circuit;
    const seen = (diagnosis: Diagnosis): SearchSeen => ({
      view: diagnosisView(own, diagnosis, after.tableRun && after.keyOffRead),
      read: notes.findings.map((text) => phraseRead(text, own, 'finding')),
      repair: notes.repair.map((text) => (text.includes(':') ? phraseRead(text, own, 'repair') : { text, findings: [], problems: [] })),
      amiss: after.amiss.map((f) => f.phrase),
      tableRun: after.tableRun,
      keyOffRead: after.keyOffRead,
    });
    const early = { state: 'open', text: '', proof: [], unexplained: [] } as const;
    const onBelief = ({ suspects, findings }: Pick<Diagnosis, 'suspects' | 'findings'>) =>
      part(seen({ suspects, findings, verdict: early, groups: [], next: [] }));
    return seen(diagnosed(takes, told, after, onBelief));
  },
  sheet: (takes) => {
    const { told, after } = stands(takes);
    const { circuit, predictor } = sound(takes.circuit);
    const diagnosis = diagnosed(takes, told, after);
    const how = { tableRun: after.tableRun, after: told.after, exchanged: told.repaired };
    return jobSheet(circuit, diagnosis, takes.notes, how, predictor());
  },
  html: ({ sheet, filled }) => jobSheetHtml(sheet, filled),
  seen: ({ circuit }) => seenTable(sound(circuit).circuit),
  drain: drainSeen,
  log: readLog,
  phrase: ({ circuit, text }) => phraseRead(text, sound(circuit).circuit, 'finding'),
};

// The DOM library types `self` as a window; this is the only line that must know better.
const port = self as unknown as { onmessage: (e: MessageEvent<CauseAsking>) => void; postMessage: (a: unknown) => void };
port.onmessage = async ({ data: { id, name, takes } }) => {
  try {
    const part = (gives: unknown) => port.postMessage({ id, ok: true, gives, part: true });
    port.postMessage({ id, ok: true, gives: await answers[name](takes as never, part as never) });
  } catch (e) {
    port.postMessage({ id, ok: false, message: e instanceof Error ? e.message : String(e) });
  }
};
