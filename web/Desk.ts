import type { EngineState } from '../src/circuit/scene.ts';
import type { Asked } from './askWorker.ts';
import { loadsAlone } from './bench/storyLayout.ts';
import type { Calls, LibraryEntry, Name } from './calls.ts';
import { Latest } from './Latest.ts';
import { begin, type History, redo, step, undo } from './session/history.ts';
import { Keeper, type KeeperEvents, type TabLine } from './session/Keeper.ts';
import type { KeptJob, Shelving } from './session/keep.ts';
import type { Unread } from './session/keptJob.ts';
import { type Link, linkText } from './session/link.ts';
import { type CircuitChoice, type Job, newJob, type Session } from './session/session.ts';
import type { Message } from './session/update.ts';

/** What the worker has answered so far about the job on the desk. Old answers stay until new ones come. */
export type Answers = {
  readonly library: readonly LibraryEntry[];
  readonly circuit?: Calls['circuit']['gives'] | undefined;
  readonly table?: Calls['table']['gives'] | undefined;
  readonly moment?: Calls['moment']['gives'] | undefined;
  readonly beside?: Calls['moment']['gives'] | undefined;
  readonly reading?: Calls['reading']['gives'] | undefined;
  /** Drawing of what belongs to some loads alone. */
  readonly only?: { readonly loads: readonly string[]; readonly layout: Calls['layout']['gives'] } | undefined;
  readonly way?: Calls['way']['gives'] | undefined;
  /** An answer has been under way for a while. */
  readonly waiting?: boolean | undefined;
  /** Own bug or a dead worker: said, never hidden. */
  readonly failure?: string | undefined;
};

/** Seconds that the engine takes to fire or to die: long enough to be seen, short enough not to wait for (estimate). */
const engineTakes_ms = { fires: 700, dies: 450 };

const patience_ms = 300;
const savingPause_ms = 150;
const rest_ms = 60;

/** What the desk needs of the browser; tests bring their own. */
export type Surroundings = {
  readonly asked: Asked;
  readonly shelf: Shelving;
  readonly line?: TabLine | undefined;
  readonly today: () => string;
  readonly newId: () => string;
  /** Writes the link of what is shown into the address. */
  readonly showLink: (hash: string) => void;
  /** Which job this tab has open, for a reload. */
  readonly remember: (id: string) => void;
};

/**
 * The one place where the session lives: takes messages, asks the worker for figures, keeps the job.
 * Listeners are told after every change; what they read is immutable.
 */
export class Desk {
  history: History;
  answers: Answers = { library: [] };
  conflict: KeptJob | undefined;
  /** A job that the browser refused to keep, and why in words; gone once it is kept. */
  unkept: { readonly job: Job; readonly why: string } | undefined;
  /** Records on the shelf that cannot be shown here. */
  unread: readonly Unread[] = [];
  /** Said in the live region. */
  announcement = '';
  private readonly around: Surroundings;
  private readonly keeper: Keeper;
  private readonly listeners = new Set<() => void>();
  /** The circuit that the answers are about. */
  private readName: string | undefined;
  private engineKey = '';
  private askTimer: ReturnType<typeof setTimeout> | undefined;
  private watchTimer: ReturnType<typeof setTimeout> | undefined;
  private engineTimer: ReturnType<typeof setTimeout> | undefined;
  private readonly circuits: Latest<Calls['circuit']['takes'], Calls['circuit']['gives']>;
  private readonly tables: Latest<Calls['table']['takes'], Calls['table']['gives']>;
  private readonly moments: Latest<Calls['moment']['takes'], Calls['moment']['gives']>;
  private readonly besides: Latest<Calls['moment']['takes'], Calls['moment']['gives']>;
  private readonly readings: Latest<Calls['reading']['takes'], Calls['reading']['gives']>;
  private readonly onlies: Latest<Calls['layout']['takes'], Calls['layout']['gives']>;
  private readonly wayDowns: Latest<Calls['way']['takes'], Calls['way']['gives']>;
  private readonly engines: Latest<Calls['engine']['takes'], EngineState>;

  constructor(session: Session, around: Surroundings) {
    this.around = around;
    this.history = begin(session);
    const events: KeeperEvents = {
      follow: (job) => {
        this.announcement = 'Changed in another tab; shown here as it is there.';
        this.put({ do: 'job', job }, false);
      },
      conflict: (theirs) => {
        this.conflict = theirs;
        this.tell();
      },
      left: (mine) => {
        const job = { ...mine, id: this.around.newId() };
        this.announcement = 'Another tab changed the job that left this desk; what was written here is kept as a job of its own.';
        void this.around.shelf.save(job, 0).catch((error: unknown) => this.refused(job, error));
        this.tell();
      },
      refused: (job, error) => this.refused(job, error),
      kept: () => {
        this.unkept = undefined;
        this.announcement = 'The job is kept again.';
        this.tell();
      },
    };
    this.keeper = new Keeper(around.shelf, around.line, events, savingPause_ms);
    const failed = (error: unknown) => this.answer({ failure: error instanceof Error ? error.message : String(error) });
    this.circuits = new Latest(this.asking('circuit'), (circuit, { choice }) => this.circuitRead(circuit, choice), failed);
    this.tables = new Latest(this.asking('table'), (table) => this.answer({ table }), failed);
    this.moments = new Latest(this.asking('moment'), (moment) => this.answer({ moment }), failed);
    this.besides = new Latest(this.asking('moment'), (beside) => this.answer({ beside }), failed);
    this.readings = new Latest(this.asking('reading'), (reading) => this.answer({ reading }), failed);
    this.onlies = new Latest(this.asking('layout'), (layout, { loads }) => this.answer({ only: { loads, layout } }), failed);
    this.wayDowns = new Latest(this.asking('way'), (way) => this.answer({ way }), failed);
    this.engines = new Latest(this.asking('engine'), (next, { scene }) => this.engineTurns(scene.engine, next), failed);
  }

  get session(): Session {
    return this.history.now;
  }
  get job(): Job {
    return this.history.now.job;
  }

  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** @param kept the job on the desk as it stands on the shelf, if it does */
  async start(kept: KeptJob | undefined): Promise<void> {
    this.keeper.took(this.job.id, kept?.revision ?? 0, kept?.taken);
    this.think();
    const { forgets } = this.around.shelf;
    if (forgets !== undefined) this.unkept = { job: this.job, why: forgets };
    this.unread = await this.around.shelf.unread().catch(() => []);
    this.answer({ library: await this.around.asked.ask('library', undefined) });
  }

  send(message: Message): void {
    this.put(message, true);
  }

  undo(): void {
    this.move(undo(this.history));
  }
  redo(): void {
    this.move(redo(this.history));
  }

  /** A question of a view to the worker. A failure is said above the drawing, and thrown on. */
  async ask<N extends Name>(name: N, takes: Calls[N]['takes']): Promise<Calls[N]['gives']> {
    try {
      return await this.around.asked.ask(name, takes);
    } catch (error) {
      this.answer({ failure: error instanceof Error ? error.message : String(error) });
      throw error;
    }
  }

  jobs(): Promise<readonly KeptJob[]> {
    return this.around.shelf.list();
  }
  async openJob(id: string): Promise<void> {
    await this.keeper.rest();
    const kept = await this.around.shelf.read(id);
    if (!kept) return;
    this.history = begin({ ...this.session, job: kept.job });
    this.keeper.took(id, kept.revision, kept.taken);
    this.think();
  }
  beginJob(circuit: CircuitChoice): void {
    const job = newJob(this.around.newId(), this.around.today(), circuit);
    this.history = begin({ view: 'bench', job });
    this.keeper.took(job.id, 0);
    this.keeper.keep(job);
    this.think();
  }
  dropJob(id: string): Promise<void> {
    return this.around.shelf.drop(id);
  }

  /** The word about records that cannot be shown is read; they stay on the shelf. */
  setAsideUnread(): void {
    this.unread = [];
    this.tell();
  }
  /** Tries once more to keep what the browser refused. */
  keepAgain(): void {
    if (this.forgets) this.unkept = undefined;
    this.keeper.keep(this.job);
    this.tell();
  }
  /** Nothing is kept here at all. */
  get forgets(): boolean {
    return this.around.shelf.forgets !== undefined;
  }
  private refused(job: Job, error: unknown): void {
    const isFull = error instanceof DOMException && error.name === 'QuotaExceededError';
    this.unkept = { job, why: isFull ? 'there is no room left for this page on this machine' : 'the browser refused to keep it' };
    this.tell();
  }

  /** A job that came from elsewhere is kept at once, not only when it is changed. */
  keepNow(): void {
    this.keeper.keep(this.job);
  }

  /** Settles a conflict between two tabs: nothing is lost either way. */
  settle(choice: 'theirs' | 'mine as another job'): void {
    const theirs = this.conflict;
    if (!theirs) return;
    this.conflict = undefined;
    if (choice === 'theirs') {
      this.keeper.took(theirs.id, theirs.revision, theirs.taken);
      this.put({ do: 'job', job: theirs.job }, false);
    } else {
      const job = { ...this.job, id: this.around.newId() };
      this.keeper.took(job.id, 0);
      this.put({ do: 'job', job }, true);
    }
  }

  /** Scene and faults of a link, onto a fresh job. */
  async follow(link: Link): Promise<void> {
    const read = await this.ask('scene', { choice: { from: 'library', name: link.circuit }, words: link.scene });
    if (read.scene) this.send({ do: 'scene', scene: read.scene });
    if (link.faults.length > 0) this.send({ do: 'faults', faults: link.faults });
  }

  private put(message: Message, keep: boolean): void {
    const before = this.history;
    this.history = step(before, message);
    if (this.history === before) return;
    if (keep && this.job !== before.now.job) this.keeper.keep(this.job);
    this.think();
  }

  private move(to: History): void {
    if (to === this.history) return;
    this.history = to;
    this.keeper.keep(this.job);
    this.think();
  }

  private asking<N extends Name>(name: N): (takes: Calls[N]['takes']) => Promise<Calls[N]['gives']> {
    return (takes) => this.around.asked.ask(name, takes);
  }

  private answer(answers: Partial<Answers>): void {
    this.answers = { ...this.answers, ...answers };
    this.showLink();
    this.tell();
  }

  private circuitRead(circuit: Calls['circuit']['gives'], choice: CircuitChoice): void {
    if (choiceKey(choice) !== choiceKey(this.job.circuit)) return;
    this.readName = choiceKey(choice);
    for (const asked of [this.tables, this.moments, this.besides, this.readings, this.onlies, this.wayDowns]) asked.forget();
    this.answers = {
      ...this.answers,
      circuit,
      table: undefined,
      moment: undefined,
      beside: undefined,
      only: undefined,
      way: undefined,
      reading: undefined,
      failure: undefined,
    };
    if (circuit.circuit) this.put({ do: 'settle', scene: circuit.circuit.rest }, false);
    this.think();
  }

  /** Asks for whatever the session now needs; a question already answered is not asked again. */
  private think(): void {
    const { circuit: choice, scene, faults, look, beside, meter } = this.job;
    const name = choiceKey(choice);
    this.circuits.want(name, { choice });
    this.around.remember(this.job.id);
    if (scene && this.answers.circuit?.circuit && this.readName === name) {
      const about = { choice, faults };
      const { hand, apart, bridged, swapped } = scene;
      const moment = JSON.stringify([name, faults, scene, look.load]);
      this.moments.want(moment, { ...about, scene, load: look.load });
      this.tables.want(JSON.stringify([name, faults, hand, apart, bridged, swapped, look.between]), {
        ...about,
        between: look.between,
        hand,
        apart,
        bridged,
        swapped,
      });
      const { instrument, red, black, open } = meter;
      if (open) this.readings.want(JSON.stringify([name, faults, scene, instrument, red, black]), { ...about, scene, meter });
      const alone = loadsAlone(look, this.answers.circuit.circuit);
      if (alone) this.onlies.want(JSON.stringify([name, alone]), { choice, loads: alone });
      if (look.load !== undefined) this.wayDowns.want(moment, { ...about, scene, load: look.load });
      if (beside) this.besides.want(JSON.stringify([name, beside, look.load]), { choice, ...beside, load: look.load });
      if (this.answers.circuit.circuit.hasEngine && !look.playing)
        this.askEngine(JSON.stringify([name, faults, scene]), { ...about, scene });
    }
    this.watch();
    this.tell();
  }

  /** After a while without an answer the old picture stays and the scene line says that work is under way. */
  private watch(): void {
    clearTimeout(this.watchTimer);
    this.watchTimer = setTimeout(() => {
      if (this.isBusy !== (this.answers.waiting ?? false)) this.answer({ waiting: this.isBusy });
      if (this.isBusy) this.watch();
    }, patience_ms);
  }
  private get isBusy(): boolean {
    return [this.circuits, this.tables, this.moments, this.besides, this.onlies].some((l) => l.busy);
  }

  /** The engine is slower than the hand: it is asked only once the key rests, so that a drag never waits for it. */
  private askEngine(key: string, takes: Calls['engine']['takes']): void {
    if (key === this.engineKey) return;
    this.engineKey = key;
    clearTimeout(this.engineTimer);
    clearTimeout(this.askTimer);
    this.askTimer = setTimeout(() => this.engines.want(key, takes), rest_ms);
  }

  private engineTurns(from: EngineState, next: EngineState): void {
    clearTimeout(this.engineTimer);
    if (next === from) return;
    const delay = next === 'cranking' ? 0 : next === 'running' ? engineTakes_ms.fires : engineTakes_ms.dies;
    this.engineTimer = setTimeout(() => {
      if (this.job.scene?.engine !== from) return;
      this.announcement = engineSays(from, next);
      this.put({ do: 'engine', engine: next }, true);
    }, delay);
  }

  private showLink(): void {
    const { circuit, faults } = this.job;
    const words = this.answers.moment?.words;
    if (circuit.from !== 'library' || words === undefined) return;
    this.around.showLink(linkText({ circuit: circuit.name, scene: words, faults, view: this.session.view }));
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

const choiceKey = (choice: CircuitChoice): string => (choice.from === 'library' ? choice.name : `${choice.name}\n${choice.text}`);

function engineSays(from: EngineState, next: EngineState): string {
  if (next === 'cranking') return 'The starter turns the engine.';
  if (next === 'running') return 'The engine fires and runs.';
  return from === 'running' ? 'The engine dies.' : 'The engine stops turning.';
}
