import type { KeptJob, Shelving, Taken } from './keep.ts';
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
  /** Another tab changed a job that left this desk before its last change was kept: it needs a place of its own. */
  readonly left: (mine: Job) => void;
  /** The browser refused to keep a job; it is tried again with the next change. */
  readonly refused: (job: Job, error: unknown) => void;
  /** What was refused before is kept now. */
  readonly kept: () => void;
};

/** A job with what is not yet kept of it. */
type Waiting = { readonly id: string; revision: number; taken: Taken; waiting: Job | undefined; held: boolean };

/**
 * Notes every change of the job on the desk at once and saves it, one saving at a time, the latest state always last; and listens to
 * the other tabs. Never overwrites what another tab saved in between; what waits when another job takes the desk is kept too.
 */
export class Keeper {
  private readonly shelf: Shelving;
  private readonly line: TabLine | undefined;
  private readonly events: KeeperEvents;
  private here: Waiting = { id: '', revision: 0, taken: {}, waiting: undefined, held: false };
  /** Jobs that left the desk with a change still to be kept. */
  private gone: Waiting[] = [];
  private writing: Promise<void> | undefined;
  private readonly pause_ms: number;
  private pausing: ReturnType<typeof setTimeout> | undefined;
  private refusing = false;

  /** @param pause_ms least time between two savings: what is noted is safe, and a saving in between would only hold up the next note */
  constructor(shelf: Shelving, line: TabLine | undefined, events: KeeperEvents, pause_ms = 0) {
    this.shelf = shelf;
    this.pause_ms = pause_ms;
    this.line = line;
    this.events = events;
    if (line) line.onmessage = ({ data }) => void this.heard(data);
  }

  /** The desk took up a job that stands on the shelf at this revision (0: not there yet). */
  took(id: string, revision: number, taken: Taken = {}): void {
    if (this.here.waiting && !this.here.held && this.here.id !== id) this.gone.push(this.here);
    // The user has decided which of two states stays: what was written here of the other one is not to come back.
    if (this.here.held) this.shelf.unnote(this.here.id);
    this.here = { id, revision, taken, waiting: undefined, held: false };
  }

  keep(job: Job): void {
    if (job.id !== this.here.id) this.took(job.id, 0);
    this.here.waiting = job;
    this.shelf.note(job, this.here.revision);
    this.begin();
  }

  /** The user chose own work over that of the other tab. */
  insist(theirs: KeptJob): void {
    this.here.revision = theirs.revision;
    this.here.held = false;
    this.begin();
  }

  /** Once everything that waits has been kept or refused: what is read from the shelf then is the latest. */
  async rest(): Promise<void> {
    while (this.pausing !== undefined || this.writing) {
      if (this.pausing !== undefined) this.save();
      await this.writing;
    }
  }

  private begin(): void {
    if (this.pause_ms === 0) this.save();
    else if (!this.writing) this.pausing ??= setTimeout(() => this.save(), this.pause_ms);
  }

  private save(): void {
    clearTimeout(this.pausing);
    this.pausing = undefined;
    this.writing ??= this.write().then((isMore) => {
      this.writing = undefined;
      if (isMore) this.begin();
    });
  }

  /** Jobs that left the desk first. Whether something still waits that is not refused. */
  private async write(): Promise<boolean> {
    const next = () => [...this.gone, this.here].find((l) => l.waiting && !l.held);
    for (;;) {
      const line = next();
      const job = line?.waiting;
      if (!line || !job) return false;
      line.waiting = undefined;
      try {
        await this.saveOne(line, job);
      } catch (error) {
        line.waiting ??= job;
        this.refusing = true;
        this.events.refused(line.waiting, error);
        return false;
      }
      this.gone = this.gone.filter((l) => l.waiting);
      if (this.pause_ms > 0 && line === this.here) return next() !== undefined;
    }
  }

  private async saveOne(line: Waiting, job: Job): Promise<void> {
    const saved = await this.shelf.save(job, line.revision, line.taken);
    if (saved.ok) {
      line.revision = saved.revision;
      this.line?.postMessage({ said: 'saved', id: job.id, revision: saved.revision });
      if (this.refusing) this.events.kept();
      this.refusing = false;
    } else if (line !== this.here) {
      this.events.left(line.waiting ?? job);
      this.shelf.unnote(line.id);
      line.waiting = undefined;
    } else {
      line.held = true;
      line.waiting ??= job;
      this.events.conflict(saved.theirs);
    }
  }

  private async heard(word: TabWord): Promise<void> {
    const line = this.here;
    const isIdle = () => this.here === line && !this.writing && !line.waiting;
    if (word.id !== line.id || word.revision <= line.revision || !isIdle()) return;
    const kept = await this.shelf.read(word.id);
    if (!kept || kept.revision <= line.revision || !isIdle()) return;
    line.revision = kept.revision;
    line.taken = kept.taken ?? {};
    this.events.follow(kept.job);
  }
}
