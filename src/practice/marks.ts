import { isReading } from './action.ts';
import type { Bench } from './bench.ts';
import type { Complaint } from './complaint.ts';
import type { Debrief } from './debrief.ts';

export type Mark = { readonly id: string; readonly about: string; readonly points: number; readonly of: number };
export type Marks = {
  readonly list: readonly Mark[];
  readonly hints: number;
  /** 0 to 100. */
  readonly total: number;
  /** An unsafe act stops the marks: the list still shows what they would have been. */
  readonly stopped: boolean;
};

/** Points lost by a reading that could not change who is suspected, by one taken without current, by a part bought for nothing. */
export const lost = { redundant: 3, idle: 4, part: 8 } as const;
/** Points that a hint costs, by its strength. */
export const hintCosts = { ask: 1, narrow: 3, show: 6 } as const;
/** Without a proof no more than this. */
const withoutProof = 85;

/**
 * Marks of a search, 0 to 100. Safety is a gate. Then: complaint and table before the first reading 15, order 15, time
 * and access 10, valid readings 20, parts 15, cause 15 (the right part at another place, or one of two, 8), proof and whole table 10.
 *
 * Nothing here can rise by one more redundant reading: it costs minutes and points, and is left out of what is believed.
 * Source of the criteria: an instructor's published mark sheet, http://www.ciese.org/pathways/rwlo/rwlos/4201/Assistant%20Professor/assessment.html ;
 * preparation and safety first: https://scribd.com/document/358089478/Marking-Forms-With-Aspects-Automobile-Technology-Draft ; weights are estimates.
 */
export function marksOf(bench: Bench, complaint: Complaint, facts: Omit<Debrief, 'marks' | 'misconceptions'>): Marks {
  const { outcome, steps, best, minutes, bought, proved, tableAgain } = facts;
  const found = outcome === 'named' || outcome === 'group';
  const told = steps.filter((s) => (s.bits ?? 0) > 0.01 && !s.redundant).length;
  const redundant = steps.filter((s) => s.redundant).length;
  const poor = bench.steps.filter((s) => s.idle || s.trap === 'ammeter-overload' || s.trap === 'bridge-short').length;
  const wasted = bought.filter((b) => !b.needed).length;
  const list: readonly Mark[] = [
    { id: 'table', about: 'Complaint and table before the first reading', points: tableFirst(bench, complaint), of: 15 },
    {
      id: 'order',
      about: 'Every reading could tell something',
      points: told === 0 ? 0 : Math.max(0, 15 - lost.redundant * redundant),
      of: 15,
    },
    { id: 'time', about: 'Time and access', points: found ? Math.round(10 * Math.min(1, (best.minutes + 2) / (minutes + 2))) : 0, of: 10 },
    {
      id: 'valid',
      about: 'Readings valid: under load, no carelessness',
      points: told === 0 ? 0 : Math.max(0, 20 - lost.idle * poor),
      of: 20,
    },
    { id: 'parts', about: 'No part bought for nothing', points: found ? Math.max(0, 15 - lost.part * wasted) : 0, of: 15 },
    { id: 'cause', about: 'Cause named, one place', points: outcome === 'named' ? 15 : outcome === 'group' ? 8 : 0, of: 15 },
    { id: 'proof', about: 'Proved before buying; whole table after', points: found ? (proved ? 5 : 0) + (tableAgain ? 5 : 0) : 0, of: 10 },
  ];
  const hints = facts.hints.reduce((sum, s) => sum + (s.action.do === 'hint' ? hintCosts[s.action.strength] : 0), 0);
  const sum = list.reduce((all, m) => all + m.points, 0) - hints;
  const stopped = facts.unsafe.length > 0;
  const total = stopped ? 0 : Math.max(0, proved ? sum : Math.min(sum, withoutProof));
  return { list, hints, total, stopped };
}

/** Looks and answers that a walk through the whole table counts for. */
const walkCounts = 4;

/** Reproduced what was complained of: 8; three further looks or answers before the first reading, or the whole table: 7. */
function tableFirst(bench: Bench, { told, drain }: Complaint): number {
  const first = bench.steps.findIndex((s) => isReading(s.action));
  const steps = (first < 0 ? bench.steps : bench.steps.slice(0, first)).filter((s) => s.findings.length > 0);
  const before = steps.flatMap((s) => s.findings);
  const asked = new Set(steps.map((s) => s.findings.map((f) => f.phrase).join('; ')));
  const looks = asked.size + (steps.some((s) => s.action.do === 'walk') ? walkCounts - 1 : 0);
  const place = (f: (typeof told)[number]) => JSON.stringify([f.scene.key, f.observable]);
  const places = new Set(before.map(place));
  const reproduced = told.some((f) => places.has(place(f))) || (told.length === 0 && drain && looks > 0);
  return (reproduced ? 8 : 0) + Math.round((7 * Math.min(3, Math.max(0, looks - 1))) / 3);
}
