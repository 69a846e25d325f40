import { actionText } from '../practice/actionPhrase.ts';
import type { Bench } from '../practice/bench.ts';
import type { ClassRow } from '../practice/classSheet.ts';
import { type Debrief, placeOfReading } from '../practice/debrief.ts';
import type { Exercise } from '../practice/exercise.ts';
import { worthText } from './practiceText.ts';

/** The result of an exercise as data, after it has ended: the fault is in it. */
export function practiceData(
  { circuit, level, seed, complaint, difficulty }: Pick<Exercise, 'circuit' | 'level' | 'seed' | 'complaint' | 'difficulty'>,
  bench: Bench,
  d: Debrief,
) {
  return {
    circuit: circuit.title,
    level: level.number,
    seed,
    complaint: complaint.text,
    difficulty,
    outcome: d.outcome,
    hidden: d.hidden.map((f) => f.phrase),
    named: d.named,
    minutes: d.minutes,
    money: d.money,
    best: { ...d.best, course: d.best.by === 'apprentice' ? d.course : d.technician.course },
    technician: { minutes: d.technician.minutes, readings: d.technician.readings, course: d.technician.course },
    course: d.course,
    steps: d.steps.map((s) => ({
      did: actionText(s.step.action, circuit),
      said: s.step.said,
      at: s.step.at,
      minutes: s.step.minutes,
      bits: s.bits ?? null,
      redundant: s.redundant,
      left: s.left,
      worth: worthText(s, circuit),
      best: s.best ? placeOfReading(s.best.reading, circuit) : null,
    })),
    bought: d.bought,
    unsafe: d.unsafe.map((s) => ({ trap: s.trap, at: s.at })),
    hints: d.hints.length,
    misconceptions: d.misconceptions,
    marks: d.marks,
    done: bench.steps.map((s) => actionText(s.action, circuit)),
  };
}

/** The result of an exercise as a line of a class sheet. */
export const classRow = (name: string, { circuit, level, seed }: Pick<Exercise, 'circuit' | 'level' | 'seed'>, d: Debrief): ClassRow => ({
  name,
  circuit: circuit.title,
  level: level.number,
  seed,
  outcome: d.outcome,
  score: d.marks.total,
  minutes: Math.round(d.minutes),
  bestMinutes: Math.ceil(d.best.minutes),
  readings: d.steps.length,
  money: d.money,
  unsafe: d.unsafe.length,
  hints: d.hints.length,
});
