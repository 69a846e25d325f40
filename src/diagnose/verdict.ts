import type { Finding } from './finding.ts';
import type { NextReading } from './nextReading.ts';
import type { Suspect } from './suspects.ts';

export type VerdictState = 'open' | 'pinned' | 'proved' | 'contradiction' | 'nothing-fits';
export type CaseVerdict = {
  readonly state: VerdictState;
  readonly text: string;
  /** Index of the finding that proves it. */
  readonly proof?: number;
  /** Findings that cannot stand together, or that nothing explains. */
  readonly unexplained: readonly number[];
};

/** Belief at which a suspect, or a group that no reading parts, is called pinned. */
const pinnedAt = 0.95;
/** How much likelier a finding must be under the suspect than under every rival to count as its proof. */
const proofOdds = Math.log(8);

/**
 * Where the search stands. `proved` needs a reading, exchange or bench test that would have come out otherwise for
 * every rival: seeing loads work or fail in key positions alone never proves a switch, since a burnt feed, a plug or a
 * ballast gives the same table.
 */
export function caseVerdict(suspects: readonly Suspect[], findings: readonly Finding[], next: readonly NextReading[]): CaseVerdict {
  const top = suspects[0];
  if (!top || findings.length === 0)
    return { state: 'open', text: 'Every part is still possible. One finding narrows it.', unexplained: [] };
  const stray = top.against;
  if (stray.length >= 2 || (stray.length === 1 && findings.length === 1))
    return {
      state: 'nothing-fits',
      text: `No modelled fault explains these findings together: ${stray.map((k) => findings[k]!.phrase).join('; ')}. Check the cheapest of them again.`,
      unexplained: stray,
    };
  if (stray.length === 1) {
    const other = clashesWith(stray[0]!, top, suspects, findings);
    return {
      state: 'contradiction',
      text: `"${findings[stray[0]!]!.phrase}" and "${findings[other]!.phrase}" do not stand together for any one cause. Look again at the one that is quicker to check.`,
      unexplained: [stray[0]!, other],
    };
  }
  const names = top.faults.length === 0 ? 'nothing wrong' : top.faults.map((f) => f.phrase).join(' and ');
  const telling = findings.flatMap((f, k) => (isProofKind(f) ? [k] : [])).find((k) => parts(k, top, suspects));
  if (top.probability >= pinnedAt && top.faults.length > 0)
    return telling === undefined
      ? {
          state: 'pinned',
          text: `${names}: ${percent(top.probability)}. Not proved yet: take a reading that would be otherwise if it were anything else.`,
          unexplained: [],
        }
      : { state: 'proved', text: `${names}. Proved by "${findings[telling]!.phrase}".`, proof: telling, unexplained: [] };
  if (top.faults.length > 0 && next.length === 0)
    return { state: 'pinned', text: `${names}, or one that no reading within reach tells from it.`, unexplained: [] };
  return { state: 'open', text: `Most likely ${names}: ${percent(top.probability)}.`, unexplained: [] };
}

const isProofKind = (f: Finding): boolean => ['volts', 'amperes', 'ohms', 'exchange', 'touch'].includes(f.observable.of);

/** True when every rival that was in the running without this finding is made unlikely by it. */
function parts(k: number, top: Suspect, suspects: readonly Suspect[]): boolean {
  const own = top.grades[0]!.weighed;
  return suspects.every((s) => {
    if (s === top) return true;
    const rival = s.grades[0]!.weighed;
    const without = own.score - own.fits[k]! - (rival.score - rival.fits[k]!);
    return without > Math.log(200) || own.fits[k]! - rival.fits[k]! > proofOdds;
  });
}

/** The finding that would have to be wrong for the stray one to be right: where its best supporter fails. */
function clashesWith(stray: number, top: Suspect, suspects: readonly Suspect[], findings: readonly Finding[]): number {
  const own = top.grades[0]!.weighed;
  const supporter = suspects.find((s) => s.grades[0]!.weighed.fits[stray]! > own.fits[stray]! + 1)?.grades[0]?.weighed;
  const others = findings.map((_f, k) => k).filter((k) => k !== stray);
  if (!supporter) return others[0] ?? stray;
  return others.reduce(
    (worst, k) => (supporter.fits[k]! - own.fits[k]! < supporter.fits[worst]! - own.fits[worst]! ? k : worst),
    others[0]!,
  );
}

const percent = (p: number): string => (p > 0.995 ? 'over 99 %' : `${Math.round(100 * p)} %`);
