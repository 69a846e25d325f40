import type { Circuit } from '../circuit/circuit.ts';
import { actionHelp, actionText } from '../practice/actionPhrase.ts';
import type { Step } from '../practice/bench.ts';
import { type Debrief, hadBetter, placeOfReading } from '../practice/debrief.ts';
import type { Difficulty } from '../practice/exercise.ts';
import type { Level } from '../practice/level.ts';
import { textTable, wrapped } from './textTable.ts';

export const clockText = (minutes: number): string => `${Math.floor(minutes / 60)}:${String(Math.floor(minutes % 60)).padStart(2, '0')}`;
export const minutesText = (minutes: number): string =>
  minutes < 0.05 ? 'free' : minutes < 1 ? 'under 1 min' : `${Math.round(minutes)} min`;

/** What stands above an exercise before anything was done. */
export function exerciseText(
  circuit: Circuit,
  level: Level,
  seed: number,
  complaint: string,
  tools: readonly string[],
  d: Difficulty,
  width: number,
): string {
  return [
    `Exercise: level ${level.number}, ${level.title.toLowerCase()}. Seed ${seed}.`,
    `Vehicle:  ${circuit.title}`,
    '',
    'The customer says:',
    ...wrapped(`  "${complaint}"`, width),
    '',
    ...wrapped(
      `At hand: ${tools.join(', ')}. Rivals after the complaint: ${d.rivals}. A good time: ${Math.ceil(d.minutes)} min with ${d.readings} looks and readings.`,
      width,
    ),
    ...circuit.cautions.flatMap((c) => wrapped(`Caution: ${c}`, width)),
    'Type what you do; `help` lists what can be done, `name FAULT` ends the search.',
  ].join('\n');
}

export function helpText(width: number): string {
  return [
    textTable({ head: ['type', 'it does'], rows: actionHelp, wraps: [0, 1] }, width),
    'Also: `parts`, `terminals S1`, `faults S1` (how a fault is named), `log`, `help`, `quit`.',
  ].join('\n');
}

export const stepLine = (step: Step): string =>
  `${clockText(step.at + step.minutes)}  ${step.said}${step.money > 0 ? `  (${step.money} money)` : ''}`;

const outcomes = {
  named: 'Right',
  group: 'Close: the right part, or one of two, but not the whole cause',
  wrong: 'Not that',
  'given up': 'Given up',
} as const;

/** The first line of a debrief. */
export function verdictLine(d: Debrief): string {
  const proof = d.outcome === 'named' ? (d.proved ? ', and proved' : ', but not proved') : '';
  const possible = Math.ceil(d.technician.minutes);
  const other = Math.round(d.minutes) > possible ? `${possible} were possible` : `the technician who asks the engine took ${possible}`;
  return `${outcomes[d.outcome]}${proof}. ${Math.round(d.minutes)} minutes; ${other}.`;
}

export const hiddenLine = (d: Debrief): string =>
  `The hidden fault: ${d.hidden.map((f) => `${f.phrase} (${f.mode.text})`).join('; and ')}.`;

/** What a step was worth, in words. */
export function worthText(step: Debrief['steps'][number], circuit: Circuit): string {
  const { bits, redundant, proof, before, left, best, certain } = step;
  const other = best && hadBetter(step) ? ` Better: ${placeOfReading(best.reading, circuit)}.` : '';
  if (step.step.findings.length === 0) return 'No finding came of it, so there is nothing to weigh.';
  if (bits === undefined) return `Not weighed: it fits more than one state of the vehicle.${other}`;
  if (proof) return 'Proof: a reading at the suspect itself agrees with it.';
  if (redundant || bits < 0.01) return `Told nothing: it could only come out this way.${other}`;
  const sure = !certain ? '' : ` From here on the place was certain${left > 1 ? ': those left share it, or no reading parts them' : ''}.`;
  if (left < before) return `${before} suspects down to ${left}.${sure}${other}`;
  if (left > before) return `It spoke against what was likeliest: ${left} suspects are open again.${sure}${other}`;
  return `${left === 1 ? 'Confirmed the one that was left' : `Still ${left} suspects, with other odds`}.${sure}${other}`;
}

/** The debrief for a terminal. */
export function debriefText(d: Debrief, circuit: Circuit, width = 80): string {
  const rows = d.steps.map((s) => [
    clockText(s.step.at + s.step.minutes),
    actionText(s.step.action, circuit),
    s.step.figure ?? '',
    `${s.left}`,
    worthText(s, circuit),
  ]);
  const { marks } = d;
  return [
    verdictLine(d),
    ...wrapped(hiddenLine(d), width),
    '',
    `Suspects after the complaint: ${d.rivals}.`,
    ...(rows.length > 0 ? [textTable({ head: ['at', 'done', 'read', 'left', 'worth'], rows, keeps: 2, wraps: [4] }, width)] : []),
    '',
    ...wayLines(d).flatMap((line) => wrapped(line, width)),
    ...technicianSteps(d, circuit).flatMap((line) => wrapped(`  ${line}`, width)),
    ...(d.unsafe.length > 0
      ? ['', 'Unsafe, and therefore no marks:', ...d.unsafe.flatMap((s) => wrapped(`  ${clockText(s.at)} ${s.said}`, width))]
      : []),
    ...(d.bought.length > 0 ? ['', ...d.bought.flatMap((b) => wrapped(boughtText(b), width))] : []),
    ...d.misconceptions.flatMap((m) => ['', ...wrapped(`Shown by what was done: "${m.belief}". (${m.condition}.) Try: ${m.task}.`, width)]),
    '',
    ...marks.list.map((m) => `${m.about.padEnd(46)} ${String(m.points).padStart(3)} of ${m.of}`),
    ...(marks.hints > 0 ? [`${'Hints'.padEnd(46)} ${String(-marks.hints).padStart(3)}`] : []),
    `${'Together'.padEnd(46)} ${String(marks.total).padStart(3)} of 100${marks.stopped ? ' (stopped by safety)' : ''}`,
  ].join('\n');
}

/** Above the technician's steps. Nobody knows the shortest way of all, so only an apprentice who beat the technician is told of one. */
export const wayLines = ({ technician, best }: Debrief): readonly string[] => [
  ...(best.by === 'apprentice' ? [`Your way was the shorter one: ${wayOf(best)}.`] : []),
  `How the technician went: ${wayOf(technician)}.`,
];
const wayOf = ({ readings, minutes }: { readonly readings: number; readonly minutes: number }): string =>
  `${readings} ${readings === 1 ? 'look or reading' : 'looks and readings'}, ${Math.ceil(minutes)} min`;

export const technicianSteps = (d: Debrief, circuit: Circuit): readonly string[] =>
  d.technician.bench.steps
    .filter((s) => s.findings.length > 0 || s.action.do === 'clamp')
    .map((s) => `${clockText(s.at + s.minutes)} ${actionText(s.action, circuit)}: ${s.said}`);

export const boughtText = (b: Debrief['bought'][number]): string =>
  `Bought ${b.part} (${b.money}): ${b.needed ? 'it was the cause' : 'it was sound'}${b.proved ? '' : ', and nothing had proved it'}.`;
