import { pieceOf, problemAt } from '../circuit/phrasePiece.ts';
import type { Problem } from '../circuit/problem.ts';
import type { Fault } from './fault.ts';
import { suspectName } from './faultModes.ts';

/**
 * What cannot be put in together: the same fault twice, and two faults of one joint that exclude each other (open and
 * stuck closed). One problem for each later fault, at the phrase of it.
 */
export function clashes(faults: readonly Fault[], file = '--fault'): readonly Problem[] {
  return faults.flatMap((fault, k) => {
    const before = faults.slice(0, k);
    const piece = pieceOf(fault.phrase, file);
    const same = before.find((f) => f.part === fault.part && suspectName(f.mode) === suspectName(fault.mode));
    if (same)
      return [
        problemAt(
          piece,
          'fault-twice',
          same.phrase === fault.phrase
            ? `\`${fault.phrase}\` is put in twice`
            : `\`${same.phrase}\` and \`${fault.phrase}\` are the same fault in two degrees`,
          'a fault is in or it is not',
          [`leave out \`${fault.phrase}\``],
        ),
      ];
    const other =
      before.find((f) => f.part === fault.part && kept(f) === kept(fault)) ??
      before.find((f) => overwrites(f, fault) || outlasts(f, fault) || outlasts(fault, f));
    if (!other) return [];
    return [
      problemAt(
        piece,
        'faults-exclude',
        `\`${other.phrase}\` and \`${fault.phrase}\` cannot both be`,
        'one joint is in one state at a time',
        [`leave out \`${other.phrase}\``, `leave out \`${fault.phrase}\``],
      ),
    ];
  });
}

const kept = (f: Fault): string => f.mode.excludes ?? f.mode.subject;

/** Two faults that set the same parameter of one part to different things: one of them would be lost without a word. */
function overwrites(a: Fault, b: Fault): boolean {
  if (a.part !== b.part) return false;
  const patches = (f: Fault) => f.mode.changes(f.detail).flatMap((c) => (c.do === 'params' ? [c.patch] : []));
  const [one, two] = [Object.assign({}, ...patches(a)), Object.assign({}, ...patches(b))] as Readonly<Record<string, unknown>>[];
  return Object.keys(one!).some((key) => key in two! && JSON.stringify(one![key]) !== JSON.stringify(two![key]));
}

/** A contact or winding that stays as it is in every condition leaves no room for a fault that shows in some of them. */
function outlasts(fixed: Fault, other: Fault): boolean {
  const does = (f: Fault, what: 'fix' | 'params') => f.mode.changes(f.detail).some((c) => c.do === what);
  const piece = fixed.mode.subject;
  return fixed.part === other.part && piece === other.mode.subject && piece.includes('.') && does(fixed, 'fix') && does(other, 'params');
}
