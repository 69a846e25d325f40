import type { Pattern } from './eliminationPattern.ts';
import { remembered } from './remembered.ts';
import { RememberedInstants } from './rememberedInstants.ts';
import { type Eliminated, eliminate, eliminateAgain } from './starMesh.ts';

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
  private readonly siemens: Float64Array;
  private readonly changed: Int32Array;
  private readonly pattern: Pattern;
  private done: Eliminated | undefined;

  private constructor(pattern: Pattern) {
    this.pattern = pattern;
    this.feeds = new Float64Array(pattern.nodes);
    this.steadyFeeds = new Float64Array(pattern.nodes);
    this.correction = new Float64Array(pattern.nodes);
    this.base = new Float64Array(pattern.nodes);
    this.siemens = new Float64Array(pattern.branchStep.length);
    this.changed = new Int32Array(pattern.branchStep.length);
  }

  private static readonly known = new WeakMap<Pattern, Workspace>();
  static for(pattern: Pattern): Workspace {
    return remembered(Workspace.known, pattern, () => new Workspace(pattern));
  }

  /** The elimination for these conductances, good until the next call. */
  eliminated(siemens: Float64Array): Eliminated {
    if (!this.done) {
      this.siemens.set(siemens);
      this.done = eliminate(this.pattern, this.siemens);
      return this.done;
    }
    let many = 0;
    for (let k = 0; k < siemens.length; k++) {
      if (siemens[k] === this.siemens[k]) continue;
      this.siemens[k] = siemens[k]!;
      this.changed[many++] = k;
    }
    if (many > 0) eliminateAgain(this.done, this.siemens, this.changed.subarray(0, many));
    return this.done;
  }
}
