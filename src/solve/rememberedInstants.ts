import { remembered } from '../circuit/remembered.ts';
import type { BranchValues, LawBranch } from './branchValues.ts';
import type { Instant } from './instant.ts';

type Known = {
  readonly siemens: Float64Array;
  readonly push: Float64Array;
  readonly laws: readonly LawBranch[];
  readonly offsets: Float64Array;
  readonly instant: Instant;
};

/** What the solutions of one pattern may take, bytes, the oldest going first; and what a branch of one takes, with its share of nodes. */
const most_bytes = 3e6;
const branch_bytes = 50;
/** How many are kept that differ in their laws only: a module awake and asleep. */
const mostAlike = 8;

/**
 * Solutions by the numbers that they came from. Most faults do not show in most scenes: a contact that fails in one
 * key position leaves the numbers of all others as they are, and then the solution is there already. It is the very
 * one that solving would give, since a solve always begins in the same way.
 */
export class RememberedInstants {
  private readonly known = new Map<number, Known[]>();
  private held = 0;

  find(values: BranchValues, offsets: Float64Array): Instant | undefined {
    return this.known.get(digest(values))?.find((known) => isSame(known, values, offsets))?.instant;
  }

  keep(values: BranchValues, offsets: Float64Array, instant: Instant): void {
    const alike = remembered(this.known, digest(values), () => []);
    alike.unshift({ siemens: values.siemens.slice(), push: values.push.slice(), laws: values.laws.slice(), offsets, instant });
    this.held += alike.length > mostAlike ? 0 : 1;
    if (alike.length > mostAlike) alike.pop();
    while (this.held * values.siemens.length * branch_bytes > most_bytes && this.known.size > 1) {
      const [oldest, gone] = this.known.entries().next().value!;
      this.known.delete(oldest);
      this.held -= gone.length;
    }
  }
}

function isSame(known: Known, { siemens, push, laws }: BranchValues, offsets: Float64Array): boolean {
  return (
    sameNumbers(known.siemens, siemens) &&
    sameNumbers(known.push, push) &&
    sameLaws(known.laws, laws) &&
    sameNumbers(known.offsets, offsets)
  );
}

function sameNumbers(a: Float64Array, b: Float64Array): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false;
  return true;
}

function sameLaws(a: readonly LawBranch[], b: readonly LawBranch[]): boolean {
  if (a.length !== b.length) return false;
  for (let l = 0; l < a.length; l++) if (a[l]!.law !== b[l]!.law || a[l]!.branch !== b[l]!.branch) return false;
  return true;
}

/** 32 bits that nearly always differ when a resistance or a source does; the numbers themselves decide. */
function digest({ siemens, push }: BranchValues): number {
  let bits = siemens.length;
  for (const numbers of [siemens, push]) {
    const words = new Int32Array(numbers.buffer, numbers.byteOffset, numbers.length * 2);
    for (let k = 0; k < words.length; k++) {
      bits = Math.imul(bits ^ words[k]!, 0x9e3779b1); // carries a difference upwards
      bits ^= bits >>> 15; // and down again: doubles differ mostly in their highest bits
    }
  }
  return bits;
}
