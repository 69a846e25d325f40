import { isJobFile } from '../diagnose/jobFile.ts';
import { jobFindings } from '../diagnose/jobFindings.ts';
import { sizeOf } from '../report/libraryCard.ts';
import type { FileCheck } from './commands/check.ts';
import { jobGiven } from './jobGiven.ts';

/** A job file: its own form, its circuit, and every phrase in it. */
export const jobCheck: FileCheck = {
  takes: isJobFile,
  report: (path, io) => {
    const { circuit, job, problems, texts } = jobGiven([path], io);
    const said = job && circuit ? jobFindings(job, circuit, path).problems : [];
    const size = circuit ? sizeOf(circuit) : { parts: 0, wires: 0 };
    const title = job ? [job.vehicle, job.complaint].filter((t) => t !== '').join(': ') || (circuit?.title ?? '') : '';
    return { report: { file: path, title, ...size, problems: [...problems, ...said] }, texts };
  },
};
