import { remembered } from '../circuit/remembered.ts';
import type { LawBranch } from './branchValues.ts';
import type { Pattern } from './eliminationPattern.ts';
import { RememberedInstants } from './rememberedInstants.ts';
import { type Eliminated, eliminate, eliminateAgain } from './starMesh.ts';
import { Lines } from './tangents.ts';

/**
 * Arrays that the solver writes over again and again, one set for each pattern, with the elimination that was done in
 * them last. All faults and scenes that share a pattern share it too, so a new solve redoes only what differs from the
 * one before. That is never visible: an elimination done again is the same to the last bit as one done anew.
 */
export class Workspace {
  readonly feeds: Float64Array;
  readonly steadyFeeds: Float64Array;
  readonly correction: Float64Array;
  /** Node voltages where the laws were taken up last. */
  readonly base: Float64Array;
  readonly instants = new RememberedInstants();
  /** Straight lines in place of the laws, and those that come next. */
  readonly lines: readonly [Lines, Lines];
  private readonly changed: Int32Array;
  private readonly pattern: Pattern;
  private done: Eliminated | undefined;

  private constructor(pattern: Pattern) {
    this.pattern = pattern;
    this.feeds = new Float64Array(pattern.nodes);
    this.steadyFeeds = new Float64Array(pattern.nodes);
    this.correction = new Float64Array(pattern.nodes);
    this.base = new Float64Array(pattern.nodes);
    const branches = pattern.branchStep.length;
    this.lines = [new Lines(branches), new Lines(branches)];
    this.changed = new Int32Array(branches);
  }

  private static readonly known = new WeakMap<Pattern, Workspace>();
  static for(pattern: Pattern): Workspace {
    return remembered(Workspace.known, pattern, () => new Workspace(pattern));
  }

  /**
   * The elimination for these conductances, good until the next call.
   *
   * @param laws  given when only these branches can differ from the call before
   */
  eliminated(siemens: Float64Array, laws?: readonly LawBranch[]): Eliminated {
    if (!this.done) {
      this.done = eliminate(this.pattern, siemens);
      return this.done;
    }
    const before = this.done.siemens;
    let many = 0;
    const look = (branch: number) => {
      if (siemens[branch] !== before[branch]) this.changed[many++] = branch;
    };
    if (laws) for (let l = 0; l < laws.length; l++) look(laws[l]!.branch);
    else for (let k = 0; k < siemens.length; k++) look(k);
    if (many > 0) eliminateAgain(this.done, siemens, this.changed.subarray(0, many));
    return this.done;
  }
}
