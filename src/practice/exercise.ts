import type { Circuit } from '../circuit/circuit.ts';
import type { Tool } from '../diagnose/candidates.ts';
import { likelihood } from '../diagnose/likelihood.ts';
import { Predictor } from '../diagnose/predict.ts';
import type { Fault } from '../faults/fault.ts';
import type { Hidden } from './bench.ts';
import { Chance, mixedSeed } from './chance.ts';
import { type Complaint, complaintOf } from './complaint.ts';
import { hiddenFaults, mostTried, suits, tableWith } from './hidden.ts';
import { isOneEnough } from './insight.ts';
import { type Level, levelOf } from './level.ts';
import { provenBy, type Solving, solvedBy } from './technician.ts';

/** How hard it is, computed: by what the technician who asks the engine needs. */
export type Difficulty = {
  /** Readings and looks after the complaint until the cause is proved. */
  readonly readings: number;
  readonly minutes: number;
  /** Suspects within 20 to 1 of the likeliest once the complaint is told. */
  readonly rivals: number;
};

/** A vehicle with something hidden in it. `faults` is the answer: it stays with whoever computes, and is never shown or kept in the clear. */
export type Exercise = {
  readonly circuit: Circuit;
  readonly level: Level;
  readonly seed: number;
  /** Which of the seed's candidates it became. */
  readonly candidate: number;
  readonly faults: readonly Fault[];
  readonly complaint: Complaint;
  readonly tools: readonly Tool[];
  readonly difficulty: Difficulty;
  /** The way of the technician who asks the engine: what the debrief is held against. */
  readonly best: Solving;
};

/** How far the making has come: faults refused so far, and readings of the technician who tries the one at hand. */
export type Making = { readonly refused: number; readonly readings: number };

export type Made = { readonly ok: true; readonly value: Exercise } | { readonly ok: false; readonly why: string };

/** Candidates for which the technician is sent to work; more would make a person wait. Two faults take twice as long, and are found apart in every third pair. */
const mostWorked = (faults: number) => (faults > 1 ? 5 : 8);

/**
 * An exercise on demand: the first fault of the seed that does what the level is about, that a driver would notice, and
 * whose cause the simulated technician proves with the tools of the level. The same circuit, level and seed always give
 * the same exercise.
 *
 * Cost: a position table for each candidate, one to eight searches, those that lead nowhere left early; a second to a few.
 */
export function makeExercise(
  circuit: Circuit,
  levelNumber: number,
  seed: number,
  predictor = new Predictor(circuit),
  heard?: (making: Making) => void,
): Made {
  const level = levelOf(levelNumber);
  if (!level) return { ok: false, why: `there is no level ${levelNumber}; levels go from 1 to 11` };
  if (level.asks !== 'search') return { ok: false, why: `level ${level.number} asks questions about the table; nothing is hidden` };
  let [candidate, worked] = [-1, 0];
  for (const faults of hiddenFaults(circuit, level.number, orderOf(circuit, level, seed))) {
    candidate++;
    heard?.({ refused: candidate, readings: 0 });
    if (candidate >= mostTried || worked >= mostWorked(faults.length)) break;
    if (!suits(circuit, level.number, faults, tableWith(circuit, faults))) continue;
    const complaint = complaintOf(predictor, faults, wordsOf(circuit, level, seed));
    if (!complaint || !isTold(predictor, faults, complaint)) continue;
    worked++;
    const hidden = { circuit, faults, complaint, tools: level.tools, seed };
    const made = solvable(hidden, level, candidate, predictor, {
      hurried: true,
      heard: (readings) => heard?.({ refused: candidate, readings }),
    });
    if (made) return { ok: true, value: made };
  }
  return {
    ok: false,
    why: `${circuit.title} holds no exercise of level ${level.number} (${level.title}) that can be proved with its tools`,
  };
}

/** An exercise with faults that an instructor names; a refusal with its reason when no driver would notice them or the tools do not prove them. */
export function instructedExercise(
  circuit: Circuit,
  level: Level,
  seed: number,
  faults: readonly Fault[],
  tools: readonly Tool[],
  predictor = new Predictor(circuit),
  heard?: (making: Making) => void,
): Made {
  const complaint = complaintOf(predictor, faults, wordsOf(circuit, level, seed));
  if (!complaint) return { ok: false, why: 'a driver would notice nothing of it, so there is no complaint to begin with' };
  const hidden = { circuit, faults, complaint, tools, seed };
  const made = solvable(hidden, level, -1, predictor, { heard: (readings) => heard?.({ refused: 0, readings }) });
  return made ? { ok: true, value: made } : { ok: false, why: 'the simulated technician cannot prove it with these tools' };
}

/** Two faults are both complained of: something was told of each that the other alone would not do, and no one fault does it all. */
function isTold(predictor: Predictor, faults: readonly Fault[], { told }: Complaint): boolean {
  if (faults.length < 2) return true;
  const isNeeded = (fault: Fault) => {
    const others = faults.filter((f) => f !== fault);
    return told.some((f) => likelihood(f.seen, predictor.predict(others, f)) < unlikely);
  };
  return faults.every(isNeeded) && !isOneEnough(predictor, told);
}

/** A finding less likely than this would be a slip. */
const unlikely = 0.08;

function solvable(
  hidden: Hidden,
  level: Level,
  candidate: number,
  predictor: Predictor,
  ways: Parameters<typeof solvedBy>[3],
): Exercise | undefined {
  const best = solvedBy(hidden, predictor, [], ways);
  if (!provenBy(best)) return undefined;
  const { readings, minutes, rivals } = best;
  return { ...hidden, level, candidate, difficulty: { readings, minutes, rivals }, best };
}

const orderOf = (circuit: Circuit, level: Level, seed: number) => new Chance(mixedSeed('order', circuit.title, level.number, seed));
const wordsOf = (circuit: Circuit, level: Level, seed: number) => new Chance(mixedSeed('words', circuit.title, level.number, seed));
