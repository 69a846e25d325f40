import type { Finding } from './finding.ts';
import { asSlip, slipScore } from './likelihood.ts';
import { minimalSets } from './minimalSets.ts';
import type { Weighed } from './weigh.ts';

/** Tells for every hypothesis which findings it explains. */
export function explains(
  weighed: readonly Weighed[],
  findings: readonly Finding[],
  range: number,
): (w: Weighed, finding: number) => boolean {
  const best = findings.map((_f, k) => weighed.reduce((most, w) => Math.max(most, w.fits[k]!), Number.NEGATIVE_INFINITY));
  const slips = findings.map((f) => slipScore(f.seen, range));
  return (w, k) => w.fits[k]! - best[k]! >= asSlip(findings[k]!) && w.fits[k]! > slips[k]!;
}

/**
 * The smallest sets of findings that no single state of the vehicle explains together. A part that comes and goes
 * would explain nearly anything, so it counts only when somebody saw something come and go.
 *
 * Cost: findings³ questions at most, each a look at every hypothesis.
 */
export function cannotStandTogether(
  weighed: readonly Weighed[],
  findings: readonly Finding[],
  range: number,
): readonly (readonly number[])[] {
  const loose = findings.some(
    ({ seen }) => ('word' in seen && seen.word === 'comes and goes') || ('outcome' in seen && seen.outcome === 'changes'),
  );
  const steady = loose ? weighed : weighed.filter((w) => !w.hypothesis.faults.some((f) => f.mode.sometimes));
  const does = explains(weighed, findings, range);
  const masks = [
    ...new Map(
      steady.map((w) => {
        const mask = findings.map((_f, k) => does(w, k));
        return [mask.map(Number).join(''), mask] as const;
      }),
    ).values(),
  ];
  const stands = (set: readonly number[]) => set.length === 0 || masks.some((m) => set.every((k) => m[k]));
  return minimalSets(findings.length, (set) => !stands(set), findings.length > 14 ? 2 : 3);
}
