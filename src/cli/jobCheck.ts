import { isJobFile } from '../diagnose/jobFile.ts';
import { jobFindings } from '../diagnose/jobFindings.ts';
import type { FileCheck } from './commands/check.ts';
import { jobGiven } from './jobGiven.ts';

/** A job file: its own form, its circuit, and every phrase in it. */
export const jobCheck: FileCheck = {
  takes: isJobFile,
  report: (path, io) => {
    const { circuit, job, problems, texts } = jobGiven([path], io);
    const said = job && circuit ? jobFindings(job, circuit, path).problems : [];
    const all = circuit ? [...circuit.parts.values()] : [];
    const wires = all.filter((p) => p.kind.isWire === true).length;
    const title = job ? [job.vehicle, job.complaint].filter((t) => t !== '').join(': ') || (circuit?.title ?? '') : '';
    return { report: { file: path, title, parts: all.length - wires, wires, problems: [...problems, ...said] }, texts };
  },
};
