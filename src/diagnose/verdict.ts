import type { Finding } from './finding.ts';
import type { Group } from './groups.ts';
import type { NextReading } from './survey.ts';
import type { Suspect } from './suspects.ts';

export type VerdictState = 'open' | 'pinned' | 'proved' | 'contradiction' | 'nothing-fits';
export type CaseVerdict = {
  readonly state: VerdictState;
  readonly text: string;
  /** Indices of the findings that prove it: readings that would have been otherwise for every rival. */
  readonly proof: readonly number[];
  /** Findings that cannot stand together, or that nothing explains. */
  readonly unexplained: readonly number[];
};

/** Belief at which one place, or a group that no reading parts, is called pinned. */
const pinnedAt = 0.95;
/** Members of a group that are less likely are not counted. */
const leastCounted = 0.01;
/** Belief that a place must have to be called proved. */
const provedAt = 0.98;
/** How much likelier the readings must be under the suspect than under a rival to count as proof against it. */
const proofOdds = Math.log(8);
/** How much likelier all that was said must be under the leader than in a sound vehicle to need a fault, though no finding alone does (estimate). */
const togetherFrom = Math.log(100);
/** A rival counts when it would have this share of the suspect's belief without any reading. */
const rivalFrom = Math.log(0.005);

/**
 * Where the search stands. `proved` needs readings, exchanges or bench tests that would have come out otherwise for
 * every rival: seeing loads work or fail in key positions alone never proves a switch, since a burnt feed, a plug or a
 * ballast gives the same table.
 *
 * @param clashes  smallest sets of findings that cannot stand together
 */
export function caseVerdict(
  suspects: readonly Suspect[],
  findings: readonly Finding[],
  clashes: readonly (readonly number[])[],
  next: readonly NextReading[],
  groups: readonly Group[],
): CaseVerdict {
  const top = suspects[0];
  if (!top || findings.length === 0)
    return { state: 'open', text: 'Every part is still possible. One finding narrows it.', proof: [], unexplained: [] };
  const place = placeOf(suspects);
  const names = nameOf(top);
  const isFault = top.faults.length > 0;
  const proof = isFault && place >= provedAt ? proofOf(suspects, findings) : [];
  if (proof.length > 0 && top.against.length === 0)
    return { state: 'proved', text: `${names}. Proved by "${quoted(proof, findings)}".`, proof, unexplained: [] };
  const clash = clashes.find((set) => set.length === 1) ?? clashes[0];
  if (clash) return clashVerdict(clash, top, findings);
  if (proof.length > 0)
    return {
      state: 'proved',
      text: `${names}. Proved by "${quoted(proof, findings)}". "${quoted(top.against, findings)}" is not explained by it: a slip, or a second fault. Look once more.`,
      proof,
      unexplained: top.against,
    };
  const group = groups.find((g) => g.members.includes(0));
  const together = group ? group.members.reduce((sum, k) => sum + suspects[k]!.probability, 0) : top.probability;
  if (place >= pinnedAt && isFault)
    return {
      state: 'pinned',
      text: `${names}: ${percent(place)}. Not proved yet: take a reading that would be otherwise if it were anything else.`,
      proof: [],
      unexplained: top.against,
    };
  if (isFault && together >= pinnedAt && (next.length === 0 || (group && !group.by)))
    return {
      state: 'pinned',
      text: `${group ? `One of ${group.members.filter((k) => suspects[k]!.probability >= leastCounted).length} that no reading within reach tells apart, first of them ` : ''}${names}: ${percent(together)} in all.`,
      proof: [],
      unexplained: top.against,
    };
  return {
    state: 'open',
    text:
      isFault && needsFault(suspects)
        ? `Most likely ${names}: ${percent(top.probability)}.`
        : 'So far nothing that was said needs a fault.',
    proof: [],
    unexplained: top.against,
  };
}

/** Whether anything that was said speaks against a sound vehicle: one finding alone, or all of them together. */
function needsFault(suspects: readonly Suspect[]): boolean {
  const sound = suspects.find((s) => s.faults.length === 0);
  return sound === undefined || sound.against.length > 0 || fitOf(suspects[0]!) - fitOf(sound) >= togetherFrom;
}

const fitOf = (s: Suspect): number => s.grades[0]!.weighed.fits.reduce((sum, fit) => sum + fit, 0);

function clashVerdict(clash: readonly number[], top: Suspect, findings: readonly Finding[]): CaseVerdict {
  const said = clash.map((k) => `"${findings[k]!.phrase}"`).join(' and ');
  const loose =
    top.faults.some((f) => f.mode.sometimes) && top.against.length === 0 ? ` Or it comes and goes: ${nameOf(top)} would do that.` : '';
  if (clash.length === 1)
    return {
      state: 'nothing-fits',
      text: `Nothing modelled explains ${said}. Look at it again, or the cause is something that this circuit does not hold.${loose}`,
      proof: [],
      unexplained: clash,
    };
  return {
    state: 'contradiction',
    text: `${said} do not stand together for any one state of the vehicle. Look again at the one that is quicker to check.${loose}`,
    proof: [],
    unexplained: clash,
  };
}

/** Belief in one place: every way in which the same piece can be bad. */
function placeOf(suspects: readonly Suspect[]): number {
  const here = placeName(suspects[0]!);
  return suspects.reduce((sum, s) => sum + (placeName(s) === here ? s.probability : 0), 0);
}

export const placeName = (s: Suspect): string =>
  s.faults
    .map((f) => f.mode.subject)
    .sort()
    .join(' + ');

/** Findings that a person cannot get by merely watching. */
export const isProofKind = (f: Pick<Finding, 'observable'>): boolean =>
  ['volts', 'amperes', 'ohms', 'exchange', 'touch'].includes(f.observable.of);

/** The readings that together rule out every rival that was in the running without them; none when some rival is left. */
function proofOf(suspects: readonly Suspect[], findings: readonly Finding[]): readonly number[] {
  const top = suspects[0]!;
  const own = top.grades[0]!.weighed;
  const readings = findings.flatMap((f, k) => (isProofKind(f) ? [k] : []));
  const used = new Set<number>();
  for (const rival of suspects) {
    if (rival === top || placeName(rival) === placeName(top)) continue;
    const theirs = rival.grades[0]!.weighed;
    const gains = readings.map((k) => own.fits[k]! - theirs.fits[k]!);
    const all = gains.reduce((sum, g) => sum + g, 0);
    if (theirs.score - own.score + all < rivalFrom) continue;
    if (all < proofOdds) return [];
    used.add(readings[gains.indexOf(Math.max(...gains))]!);
  }
  return [...(used.size > 0 ? used : confirming(suspects, readings))].sort((a, b) => a - b);
}

/** Rivals that looks were hardest put to rule out; a confirming reading must part the suspect from half of them. */
const hardest = 8;

/**
 * Looks alone have ruled out every rival, and that proves nothing: what confirms the place is a reading that would have
 * come out otherwise for most of the rivals that looks alone left nearest.
 */
function confirming(suspects: readonly Suspect[], readings: readonly number[]): ReadonlySet<number> {
  const top = suspects[0]!;
  const own = top.grades[0]!.weighed;
  const byLooks = (s: Suspect): number => {
    const { score, fits } = s.grades[0]!.weighed;
    return score - readings.reduce((sum, k) => sum + fits[k]!, 0);
  };
  const rivals = suspects
    .filter((s) => placeName(s) !== placeName(top))
    .map((s) => ({ fits: s.grades[0]!.weighed.fits, left: byLooks(s) }))
    .sort((a, b) => b.left - a.left)
    .slice(0, hardest);
  const parts = (k: number) => rivals.filter(({ fits }) => own.fits[k]! - fits[k]! >= proofOdds).length;
  return new Set(readings.filter((k) => rivals.length > 0 && 2 * parts(k) >= rivals.length));
}

const nameOf = (s: Suspect): string => (s.faults.length === 0 ? 'nothing wrong' : s.faults.map((f) => f.phrase).join(' and '));
const quoted = (set: readonly number[], findings: readonly Finding[]): string => set.map((k) => findings[k]!.phrase).join('" and "');
const percent = (p: number): string => (p > 0.995 ? 'over 99 %' : `${Math.round(100 * p)} %`);
