import type { Fault } from '../faults/fault.ts';
import { posterior } from './bayes.ts';
import type { Finding } from './finding.ts';
import { bySuspect } from './hypotheses.ts';
import { asSlip } from './likelihood.ts';
import type { Weighed } from './weigh.ts';

/** One explanation: a set of faults, however bad each is. */
export type Suspect = {
  /** The grade that fits best. */
  readonly faults: readonly Fault[];
  readonly probability: number;
  readonly text: string;
  /** Indices of findings that it explains, and that speak against it. */
  readonly fits: readonly number[];
  readonly against: readonly number[];
  /** Its grades, best first, with their shares of the whole. */
  readonly grades: readonly { readonly weighed: Weighed; readonly share: number }[];
};

/** Suspects by probability, all grades of the same faults together. The healthy vehicle is one of them, with no faults. */
export function suspectsOf(weighed: readonly Weighed[], findings: readonly Finding[]): readonly Suspect[] {
  const shares = posterior(weighed.map((w) => w.score));
  const best = findings.map((_f, k) => weighed.reduce((most, w) => Math.max(most, w.fits[k]!), Number.NEGATIVE_INFINITY));
  const entries = weighed.map((w, k) => ({ weighed: w, share: shares[k]! }));
  const suspects = [...bySuspect(entries, (e) => e.weighed.hypothesis).values()].map((grades): Suspect => {
    grades.sort((a, b) => b.share - a.share);
    const top = grades[0]!.weighed;
    const { faults } = top.hypothesis;
    const contrary = (k: number) => top.fits[k]! - best[k]! < asSlip(findings[k]!);
    const all = findings.map((_f, k) => k);
    return {
      faults,
      probability: grades.reduce((sum, g) => sum + g.share, 0),
      text: faults.length === 0 ? 'nothing is wrong with the wiring' : faults.map((f) => f.mode.text).join('; and '),
      fits: all.filter((k) => !contrary(k)),
      against: all.filter(contrary),
      grades,
    };
  });
  return suspects.sort((a, b) => b.probability - a.probability || compareNames(a, b));
}

const compareNames = (a: Suspect, b: Suspect): number => (nameOf(a) < nameOf(b) ? -1 : 1);
const nameOf = (s: Suspect): string => s.faults.map((f) => f.phrase).join(' + ');
