/** What a job file holds, as it is written. */
export type JobWritten = {
  /** Path of the circuit beside the job. */
  readonly circuit: string;
  readonly vehicle?: string;
  readonly complaint?: string;
  readonly history?: readonly string[];
  readonly findings: readonly string[];
  readonly repair?: readonly string[];
};

/** A job as YAML that `readJob` reads back. */
export function jobText(job: JobWritten): string {
  const list = (key: string, items: readonly string[] | undefined) =>
    items === undefined || items.length === 0 ? [] : [`${key}:`, ...items.map((item) => `  - ${quoted(item)}`)];
  return [
    `circuit: ${quoted(job.circuit)}`,
    ...(job.vehicle ? [`vehicle: ${quoted(job.vehicle)}`] : []),
    ...(job.complaint ? [`complaint: ${quoted(job.complaint)}`] : []),
    ...list('history', job.history),
    ...list('findings', job.findings),
    ...list('repair', job.repair),
    '',
  ].join('\n');
}

/** JSON's quotes are YAML's double quotes. */
const quoted = (text: string): string => JSON.stringify(text);
