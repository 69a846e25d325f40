import { isMap, parseDocument, stringify } from 'yaml';
import { type CircuitChoice, type Job, type Notes, noNotes } from './session/session.ts';

/** A job as the file that the terminal reads too; a circuit of one's own travels inside it. */
export function jobFile(job: Job, circuitText: string): string {
  const { notes, circuit } = job;
  const inlined: unknown = circuit.from === 'file' ? parseDocument(circuitText).toJS() : undefined;
  const written = {
    circuit: inlined ?? `${circuit.name}.yaml`,
    ...(notes.vehicle !== '' && { vehicle: notes.vehicle }),
    ...(notes.complaint !== '' && { complaint: notes.complaint }),
    ...(notes.history.length > 0 && { history: notes.history }),
    ...(notes.findings.length > 0 && { findings: notes.findings }),
    ...(notes.repair.length > 0 && { repair: notes.repair }),
    ...(job.faults.length > 0 && { faults: job.faults }),
  };
  return stringify(written, { lineWidth: 140 });
}

/** Undefined when the text is no job file: then it is read as a circuit, and its problems are shown there. */
export function readJobFile(
  text: string,
): { readonly circuit?: CircuitChoice; readonly notes: Notes; readonly faults: readonly string[] } | undefined {
  const document = parseDocument(text, { prettyErrors: false });
  if (document.errors.length > 0 || !isMap(document.contents) || !document.has('circuit') || document.has('parts')) return undefined;
  const held = document.toJS({ maxAliasCount: 0 }) as Record<string, unknown>;
  const words = (x: unknown): string => (typeof x === 'string' || typeof x === 'number' ? String(x) : '');
  const list = (x: unknown): readonly string[] =>
    Array.isArray(x) ? x.map(words).filter((w) => w !== '') : words(x) === '' ? [] : [words(x)];
  const notes: Notes = {
    ...noNotes,
    vehicle: words(held['vehicle']),
    complaint: words(held['complaint']),
    history: list(held['history']),
    findings: list(held['findings']),
    repair: list(held['repair']),
  };
  const { circuit } = held;
  const faults = list(held['faults']);
  if (typeof circuit === 'string')
    return { circuit: { from: 'library', name: circuit.replace(/^.*\//, '').replace(/\.ya?ml$/, '') }, notes, faults };
  return { circuit: { from: 'file', name: 'circuit.yaml', text: stringify(circuit, { lineWidth: 140 }) }, notes, faults };
}
