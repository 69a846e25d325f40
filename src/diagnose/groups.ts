import type { Tool } from './candidates.ts';
import type { Finding } from './finding.ts';
import { worthwhile } from './nextReading.ts';
import type { Predictor } from './predict.ts';
import type { NextReading } from './survey.ts';
import type { Suspect } from './suspects.ts';

/** Suspects that nothing said so far tells apart. */
export type Group = {
  /** Indices of suspects, likeliest first; two or more. */
  readonly members: readonly number[];
  /** The reading that tells most of them apart for its minutes, its shares by place in `members`; absent when none within reach tells any. */
  readonly by?: NextReading;
};

/** Groups without anyone at least this likely are not shown. */
const leastShown = 0.005;
/** Groups for which a telling reading is looked for, and members counted in. */
const mostGroups = 3;
const mostMembers = 8;

/** Suspects with the very same fit to every finding, however unlikely some of them are beforehand. */
export function sameSoFar(suspects: readonly Suspect[]): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>();
  for (const [k, s] of suspects.entries()) {
    const key = s.grades[0]!.weighed.fits.map((x) => x.toFixed(3)).join(' ');
    const group = groups.get(key);
    if (group) group.push(k);
    else groups.set(key, [k]);
  }
  return [...groups.values()].filter((g) => g.length > 1 && suspects[g[0]!]!.probability >= leastShown);
}

/** The same with what would tell their members apart. */
export function groupsOf(
  predictor: Predictor,
  suspects: readonly Suspect[],
  findings: readonly Finding[],
  tools: readonly Tool[],
): readonly Group[] {
  return sameSoFar(suspects).map((members, k): Group => {
    if (k >= mostGroups) return { members };
    const by = telling(predictor, suspects, members, findings, tools);
    return by ? { members, by } : { members };
  });
}

/** The best reading for the case that it is one of these. */
function telling(
  predictor: Predictor,
  suspects: readonly Suspect[],
  members: readonly number[],
  findings: readonly Finding[],
  tools: readonly Tool[],
): NextReading | undefined {
  const some = members.slice(0, mostMembers);
  const whole = some.reduce((sum, k) => sum + suspects[k]!.probability, 0);
  if (whole === 0) return undefined;
  const held = some.map((k, own) => ({
    suspect: own,
    mass: suspects[k]!.probability / whole,
    faults: suspects[k]!.faults,
  }));
  const readings = worthwhile(predictor, held, some.length, findings, tools, 1);
  return readings.reduce<NextReading | undefined>((best, r) => (best === undefined || r.worth > best.worth ? r : best), undefined);
}
