import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Calls, CircuitSeen } from '../calls.ts';
import type { Session } from '../session/session.ts';
import type { Ask } from './BenchView.ts';

type Turn = { readonly at: number; readonly angle: number; readonly sprang: boolean };
type Host = ReactiveControllerHost & { readonly ask: Ask; readonly session: Session };

/** The story under the drawing: written, brought by a job, or recorded from what the hand does with the key. */
export class StoryPlayed implements ReactiveController {
  story = '';
  played: Calls['play']['gives'] | undefined;
  recorded: readonly Turn[] | undefined;
  private readonly host: Host;
  /** Job whose own story has been played. */
  private toldOf = '';

  constructor(host: Host) {
    this.host = host;
    host.addController(this);
  }

  /** Who leaves the bench records no more. */
  hostDisconnected(): void {
    this.recorded = undefined;
  }

  async play(story: string): Promise<void> {
    const { circuit: choice, faults } = this.host.session.job;
    this.story = story;
    this.host.requestUpdate();
    this.played = await this.host.ask('play', { choice, faults, story, seed: 1 });
    this.host.requestUpdate();
  }

  /** The same story with other faults. */
  again(): void {
    if (this.host.session.job.look.playing && this.story !== '') void this.play(this.story);
  }

  /** A job may bring a story to play: a demo of the library. Once for each job, so that another may be written over it. */
  playTold(): void {
    const { id, more, look } = this.host.session.job;
    const told = more['story'];
    if (!look.playing || typeof told !== 'string' || this.toldOf === id) return;
    this.toldOf = id;
    void this.play(told);
  }

  /** Something to begin with: the key from its first position to where it springs back from, and let go. */
  playFirst(circuit: CircuitSeen): void {
    if (this.story !== '') return;
    const positions = circuit.key?.positions ?? [];
    const sprung = positions.find((p) => p.springsTo !== undefined);
    const home = sprung?.springsTo ?? positions.at(-1)?.name ?? '';
    void this.play([positions[0]?.name, `${home} 1.5 s`, ...(sprung ? [`${sprung.name} 1.5 s`, 'release', 'wait 3 s'] : [])].join(', '));
  }

  /** Begins to write down what the hand does with the key; at the end it is a story. */
  record(on: boolean, circuit: CircuitSeen): void {
    const { key } = this.host.session.job.scene ?? {};
    this.host.requestUpdate();
    if (on) {
      this.recorded = key ? [{ at: performance.now(), angle: key.angle, sprang: false }] : [];
      return;
    }
    const turns = [...(this.recorded ?? []), { at: performance.now(), angle: Number.NaN, sprang: false }];
    const steps = turns.slice(0, -1).map((t, k) => {
      const name = circuit.key?.positions.find((p) => p.angle === t.angle)?.name ?? `${Math.round(t.angle)}°`;
      return `${t.sprang ? 'release' : name} ${((turns[k + 1]!.at - t.at) / 1000).toFixed(2)} s`;
    });
    this.recorded = undefined;
    if (steps.length > 0) void this.play(steps.join(', '));
  }

  noteTurn(angle: number, sprang: boolean): void {
    if (!this.recorded) return;
    const last = this.recorded.at(-1);
    // A drag passes many angles; only where the hand stays for a tenth of a second counts as a step.
    const passed = last !== undefined && performance.now() - last.at < 100 && !sprang && this.recorded.length > 1;
    this.recorded = [...(passed ? this.recorded.slice(0, -1) : this.recorded), { at: performance.now(), angle, sprang }];
    this.host.requestUpdate();
  }
}
