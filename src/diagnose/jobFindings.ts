import type { Circuit } from '../circuit/circuit.ts';
import type { Problem } from '../circuit/problem.ts';
import type { Finding } from './finding.ts';
import { readFinding } from './findingPhrase.ts';
import type { Job } from './jobFile.ts';

/** The phrases of a job, read. */
export type JobFindings = {
  readonly findings: readonly Finding[];
  /** Exchanges noted under `repair`: evidence like any other. */
  readonly exchanges: readonly Finding[];
  /** Seen after the repair: the parts exchanged bring no faults of their own any more. */
  readonly after: readonly Finding[];
  /** Parts exchanged for good. */
  readonly repaired: readonly string[];
  /** What else was done or looked at, as written. */
  readonly notes: readonly string[];
  readonly problems: readonly Problem[];
};

/** @param file name of the job file, for problems */
export function jobFindings(job: Job, circuit: Circuit, file: string): JobFindings {
  const problems: Problem[] = [];
  const findings = job.findings.flatMap(({ text, line }) => {
    const read = readFinding(text, circuit, file, line);
    problems.push(...read.problems);
    return read.ok ? read.value : [];
  });
  const repaired = new Set<string>();
  const exchanges: Finding[] = [];
  const after: Finding[] = [];
  const notes: string[] = [];
  for (const { text, line } of job.repair) {
    if (!text.includes(':')) {
      notes.push(text);
      continue;
    }
    const read = readFinding(text, circuit, file, line);
    problems.push(...read.problems);
    for (const finding of read.ok ? read.value : []) {
      const { observable, scene } = finding;
      if (observable.of === 'exchange') {
        repaired.add(observable.part);
        exchanges.push(finding);
      } else after.push({ ...finding, scene: { ...scene, swapped: [...new Set([...scene.swapped, ...repaired])] } });
    }
  }
  return { findings, exchanges, after, repaired: [...repaired], notes, problems };
}
