import type { KeptJob, Shelving } from './keep.ts';
import type { Job } from './session.ts';

/** Said among the tabs of one browser. */
export type TabWord = { readonly said: 'saved'; readonly id: string; readonly revision: number };
/** The little of a BroadcastChannel that is used; a test brings its own. */
export type TabLine = { postMessage: (word: TabWord) => void; onmessage: ((e: MessageEvent<TabWord>) => void) | null };

export type KeeperEvents = {
  /** Another tab changed the job on the desk while nothing was waiting here: follow it. */
  readonly follow: (job: Job) => void;
  /** Both changed it: the desk must ask. */
  readonly conflict: (theirs: KeptJob) => void;
};

/**
 * Saves the job on the desk at every change, one saving at a time, the latest state always last; and listens to the
 * other tabs. Never overwrites what another tab saved in between.
 */
export class Keeper {
  private readonly shelf: Shelving;
  private readonly line: TabLine | undefined;
  private readonly events: KeeperEvents;
  private revision = 0;
  private id = '';
  private waiting: Job | undefined;
  private busy = false;
  private held = false;

  constructor(shelf: Shelving, line: TabLine | undefined, events: KeeperEvents) {
    this.shelf = shelf;
    this.line = line;
    this.events = events;
    if (line) line.onmessage = ({ data }) => void this.heard(data);
  }

  /** The desk took up a job that stands on the shelf at this revision (0: not there yet). */
  took(id: string, revision: number): void {
    this.id = id;
    this.revision = revision;
    this.waiting = undefined;
    this.held = false;
  }

  keep(job: Job): void {
    if (job.id !== this.id) this.took(job.id, 0);
    this.waiting = job;
    if (!this.busy && !this.held) void this.write();
  }

  /** The user chose own work over that of the other tab. */
  insist(theirs: KeptJob): void {
    this.revision = theirs.revision;
    this.held = false;
    if (this.waiting && !this.busy) void this.write();
  }

  private async write(): Promise<void> {
    this.busy = true;
    while (this.waiting && !this.held) {
      const job = this.waiting;
      this.waiting = undefined;
      const saved = await this.shelf.save(job, this.revision);
      if (job.id !== this.id) continue;
      if (saved.ok) {
        this.revision = saved.revision;
        this.line?.postMessage({ said: 'saved', id: job.id, revision: saved.revision });
      } else {
        this.held = true;
        this.waiting ??= job;
        this.events.conflict(saved.theirs);
      }
    }
    this.busy = false;
  }

  private async heard(word: TabWord): Promise<void> {
    if (word.id !== this.id || word.revision <= this.revision || this.busy || this.waiting) return;
    const kept = await this.shelf.read(word.id);
    if (!kept || kept.id !== this.id || kept.revision <= this.revision || this.busy || this.waiting) return;
    this.revision = kept.revision;
    this.events.follow(kept.job);
  }
}
