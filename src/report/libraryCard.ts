import type { Circuit } from '../circuit/circuit.ts';
import { openingOf } from '../circuit/opening.ts';
import { readCircuit } from '../circuit/readCircuit.ts';
import { readJob } from '../diagnose/jobFile.ts';
import { partKinds } from '../parts/index.ts';
import { layoutOf } from './layout/layoutOf.ts';
import { type Miniature, miniatureOf } from './miniature.ts';

/** A story that shows something of a circuit: what it is about, one line for `play`, the fault that it has in it. */
export type DemoStory = { readonly about: string; readonly story: string; readonly fault: string };
/** A job that leads to a cause: without the cause, and without the repair, which would give it away. */
export type DemoJob = {
  readonly vehicle: string;
  readonly complaint: string;
  readonly history: readonly string[];
  readonly findings: readonly string[];
};

/** What the list of the library shows of one circuit. */
export type LibraryCard = {
  readonly title: string;
  readonly about: string;
  readonly teaches: string;
  readonly keyOff: string;
  readonly parts: number;
  readonly wires: number;
  readonly picture: Miniature;
  readonly stories: readonly DemoStory[];
  readonly jobs: readonly DemoJob[];
};

/** Parts that can be touched, and wires; joints without a length count as wires too. */
export function sizeOf(circuit: Circuit): { readonly parts: number; readonly wires: number } {
  const all = [...circuit.parts.values()];
  const wires = all.filter((p) => p.kind.isWire === true).length;
  return { parts: all.length - wires, wires };
}

/** Throws on a text that cannot be read: the library is our own. */
export function libraryCard(circuitText: string, stories: readonly string[], jobs: readonly string[]): LibraryCard {
  const read = readCircuit(circuitText, 'circuit', partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('; '));
  const circuit = read.value;
  return {
    title: circuit.title,
    about: circuit.about ?? '',
    ...openingOf(circuitText),
    ...sizeOf(circuit),
    picture: miniatureOf(layoutOf(circuit)),
    stories: stories.map(demoStory),
    jobs: jobs.map(demoJob),
  };
}

/** The first remark says what it is about, the second which fault is in; remarks behind steps are for readers of the file. */
function demoStory(text: string): DemoStory {
  const about = /^# (.+?)(?: Invented\.)?$/m.exec(text)?.[1] ?? '';
  const fault = /^# Fault: (.+)$/m.exec(text)?.[1] ?? 'none';
  const steps = text.split('\n').map((line) => line.replace(/#.*$/, '').trim());
  return { about, story: steps.filter((step) => step !== '').join(', '), fault: fault === 'none' ? '' : fault };
}

function demoJob(text: string): DemoJob {
  const read = readJob(text, 'job');
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('; '));
  const { vehicle, complaint, history, findings } = read.value;
  return { vehicle, complaint, history, findings: findings.map((f) => f.text) };
}
