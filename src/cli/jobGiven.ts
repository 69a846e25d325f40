import { dirname, isAbsolute, join } from 'node:path';
import type { Circuit } from '../circuit/circuit.ts';
import type { Problem } from '../circuit/problem.ts';
import { readCircuit } from '../circuit/readCircuit.ts';
import { atLine, isJobFile, type Job, readJob } from '../diagnose/jobFile.ts';
import { partKinds } from '../parts/index.ts';
import { circuitFile } from './circuitFile.ts';
import type { Io } from './io.ts';

/** A circuit with or without a job, from files. Absent when a problem is an error. */
export type Given = {
  readonly circuit?: Circuit;
  readonly job?: Job;
  /** Name of the job file, for problems of its phrases. */
  readonly jobName: string;
  readonly problems: readonly Problem[];
  readonly texts: ReadonlyMap<string, string>;
};

/**
 * `FILE` is a circuit, or a job that names or holds one; `JOB.yaml` beside it is a job told of that circuit.
 *
 * @param paths one or two
 */
export function jobGiven(paths: readonly string[], io: Io): Given {
  const [first = '', second] = paths;
  if (second !== undefined) {
    const own = circuitFile(first, io);
    return withJob(second, io, own.circuit, own.problems, own.texts);
  }
  const file = io.readFile(first);
  if (file.ok && isJobFile(file.value)) return withJob(first, io);
  return { ...circuitFile(first, io), jobName: '' } as Given;
}

function withJob(
  path: string,
  io: Io,
  circuit?: Circuit,
  before: readonly Problem[] = [],
  known: ReadonlyMap<string, string> = new Map(),
): Given {
  const texts = new Map(known);
  const file = io.readFile(path);
  if (!file.ok) return { jobName: path, problems: [...before, ...file.problems], texts };
  texts.set(path, file.value);
  const job = readJob(file.value, path);
  if (!job.ok) return { jobName: path, problems: [...before, ...job.problems], texts };
  if (circuit || before.some((p) => p.severity === 'error'))
    return { ...(circuit && { circuit }), job: job.value, jobName: path, problems: [...before, ...job.problems], texts };
  const told = job.value.circuit;
  if ('text' in told) {
    const read = readCircuit(told.text, path, partKinds);
    const problems = atLine(read.problems, path, told.line);
    return { ...(read.ok && { circuit: read.value }), job: job.value, jobName: path, problems: [...job.problems, ...problems], texts };
  }
  const own = circuitFile(isAbsolute(told.path) || path === '-' ? told.path : join(dirname(path), told.path), io);
  for (const [name, text] of own.texts) texts.set(name, text);
  return {
    ...(own.circuit && { circuit: own.circuit }),
    job: job.value,
    jobName: path,
    problems: [...job.problems, ...own.problems],
    texts,
  };
}
