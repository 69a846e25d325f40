import { type AskedOf, asking } from './askWorker.ts';
import type { CauseCalls, CauseName } from './causeCalls.ts';
import CauseWorker from './causeWorker.ts?worker';

type Held<N extends CauseName = CauseName> = {
  /** What is wanted, and what the answer at hand is about. */
  wanted: string;
  of: string;
  takes: CauseCalls[N]['takes'] | undefined;
  gives: CauseCalls[N]['gives'] | undefined;
  /** The answer at hand is whole, not only its first part. */
  whole: boolean;
  busy: boolean;
  /** Since when the answer is awaited, ms of `performance.now`. */
  since: number;
  stopped: boolean;
  failure: string | undefined;
};

/** An answer as a view finds it: maybe of the question before, maybe only its first part. */
export type CauseAnswer<N extends CauseName> = Pick<Held<N>, 'of' | 'gives' | 'whole' | 'stopped' | 'failure'> & {
  readonly isNew: boolean;
  /** Under way for more than a moment: said, with a way to stop it. */
  readonly isWaiting: boolean;
};

const patience_ms = 300;

/**
 * The page's side of the second worker, which searches and reckons drains. It is started by the first question and
 * shared by the views; one question of a kind is under way at a time, and the newest one wins.
 */
export class CauseDesk {
  private worker: AskedOf<CauseCalls> | undefined;
  private readonly start: () => AskedOf<CauseCalls>;
  private readonly held = new Map<CauseName, Held>();
  private readonly listeners = new Set<() => void>();

  constructor(start: () => AskedOf<CauseCalls> = () => asking<CauseCalls>(new CauseWorker())) {
    this.start = start;
  }

  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** @param key says what the question depends on; the same key as last time asks nothing */
  want<N extends CauseName>(name: N, key: string, takes: CauseCalls[N]['takes']): CauseAnswer<N> {
    const h = this.of(name);
    if (h.wanted !== key) {
      h.wanted = key;
      h.takes = takes;
      h.stopped = false;
      h.since = performance.now();
      if (!h.busy) void this.run(name);
    }
    return this.got(name);
  }

  /** What is there now, whatever it was asked for. */
  got<N extends CauseName>(name: N): CauseAnswer<N> {
    const { gives, whole, stopped, failure, wanted, of, busy, since } = this.of(name);
    const isWaiting = busy && performance.now() - since >= patience_ms;
    return { of, gives, whole, stopped, failure, isNew: of === wanted, isWaiting };
  }

  /** A question outside the row: a phrase that was typed. */
  ask<N extends CauseName>(
    name: N,
    takes: CauseCalls[N]['takes'],
    part?: (gives: CauseCalls[N]['gives']) => void,
  ): Promise<CauseCalls[N]['gives']> {
    this.worker ??= this.start();
    return this.worker.ask(name, takes, part);
  }

  /** Ends what is under way; a worker cannot be interrupted otherwise. */
  stop(): void {
    for (const h of this.held.values()) if (h.busy) h.stopped = true;
    this.worker?.end();
    this.worker = undefined;
    this.tell();
  }

  /** Takes a stopped question up again. */
  again(name: CauseName): void {
    const h = this.of(name);
    h.stopped = false;
    h.since = performance.now();
    h.of = '';
    if (!h.busy) void this.run(name);
    this.tell();
  }

  private of<N extends CauseName>(name: N): Held<N> {
    const known = this.held.get(name) as Held<N> | undefined;
    if (known) return known;
    const fresh: Held<N> = {
      wanted: '',
      of: '',
      takes: undefined,
      gives: undefined,
      whole: false,
      busy: false,
      since: 0,
      stopped: false,
      failure: undefined,
    };
    this.held.set(name, fresh as Held);
    return fresh;
  }

  private async run<N extends CauseName>(name: N): Promise<void> {
    const h = this.of(name);
    h.busy = true;
    let asked: string | undefined;
    while (asked !== h.wanted && !h.stopped) {
      asked = h.wanted;
      const key = asked;
      setTimeout(() => this.tell(), patience_ms + 10);
      this.worker ??= this.start();
      try {
        const take = (gives: CauseCalls[N]['gives'], whole: boolean) => {
          if (h.wanted === key || whole) Object.assign(h, { gives, whole, of: key, failure: undefined });
          this.tell();
        };
        take(await this.worker.ask(name, h.takes as CauseCalls[N]['takes'], (gives) => take(gives, false)), true);
      } catch (error) {
        if (!h.stopped) h.failure = error instanceof Error ? error.message : String(error);
      }
    }
    h.busy = false;
    this.tell();
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

/** The one of this page. */
export const causeDesk = new CauseDesk();
