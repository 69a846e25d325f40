import type { Desk } from '../Desk.ts';

/** Hands a text to the user as a file. */
export function saveText(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/yaml' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

export function saveCircuit(desk: Desk): void {
  const { circuit } = desk.job;
  saveText(circuit.from === 'file' ? circuit.name : `${circuit.name}.yaml`, desk.answers.circuit?.text ?? '');
}

export async function saveJob(desk: Desk): Promise<void> {
  const { job } = desk;
  const vehicle = job.notes.vehicle.replace(/[^\p{L}\p{N}]+/gu, '-').slice(0, 30) || 'vehicle';
  saveText(`job-${job.day}-${vehicle}.yaml`, await desk.ask('job-file', { job }));
}

/** Asks for a file; a job file becomes a job of its own, a circuit file a fresh job with that circuit. */
export function openFile(desk: Desk): void {
  const field = document.createElement('input');
  field.type = 'file';
  field.accept = '.yaml,.yml,.json,.txt';
  field.onchange = async () => {
    const file = field.files?.[0];
    if (file) await takeFile(desk, file.name, await file.text());
  };
  field.click();
}

export async function takeFile(desk: Desk, name: string, text: string): Promise<void> {
  const job = await desk.ask('read-job', { text });
  if (!job) {
    desk.beginJob({ from: 'file', name, text });
    return;
  }
  desk.beginJob(job.circuit ?? desk.job.circuit);
  desk.send({ do: 'notes', notes: job.notes });
  if (job.faults.length > 0) desk.send({ do: 'faults', faults: job.faults });
}
