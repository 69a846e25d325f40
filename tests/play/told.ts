import type { Circuit } from '../../src/circuit/circuit.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { putOf } from '../../src/faults/putOf.ts';
import type { Moment, PlayEvent, Sample } from '../../src/play/moment.ts';
import { type Played, play } from '../../src/play/play.ts';
import { readStory } from '../../src/play/story.ts';
import { voltsAt } from '../../src/solve/operatingPoint.ts';

/** A story that was played, with short ways to ask what an onlooker would ask. */
export type Told = {
  readonly played: Played;
  readonly events: (part: string) => readonly PlayEvent[];
  /** The sample that holds at a time. */
  readonly at: (t: number) => Sample;
  /** Times at which a part said this, s. */
  readonly times: (part: string, what: string) => readonly number[];
  /** What a load does at a time; at the end without one. */
  readonly is: (load: string, t?: number) => string;
  readonly engine: (t?: number) => string;
  readonly volts: (terminal: string, t?: number) => number;
  readonly lowest: (terminal: string) => number;
  readonly charge: (battery?: string) => number;
};

export function told(circuit: Circuit, story: string, faults: readonly string[] = [], from: Moment | number = 1): Told {
  const steps = readStory(story, circuit, 'story');
  if (!steps.ok) throw new Error(steps.problems.map((p) => `${p.column} ${p.what}`).join('\n'));
  const read = faults.map((phrase) => {
    const fault = readFault(phrase, circuit);
    if (!fault.ok) throw new Error(`${phrase}: ${fault.problems.map((p) => p.what).join('; ')}`);
    return fault.value;
  });
  const played = play(circuit, steps.value, putOf(read), from);
  const { samples, events, end } = played;
  const at = (t = Number.POSITIVE_INFINITY) => samples.filter((s) => s.t <= t + 1e-9).at(-1) ?? samples[0]!;
  const volts = (terminal: string, t?: number) => voltsAt(at(t).at, terminal) ?? Number.NaN;
  return {
    played,
    at,
    volts,
    events: (part) => events.filter((e) => e.part === part),
    times: (part, what) => events.filter((e) => e.part === part && e.what === what).map((e) => e.t),
    is: (load, t) => at(t).loads.find((l) => l.id === load)!.verdict,
    engine: (t) => at(t).engine,
    lowest: (terminal) => Math.min(...samples.map((s) => voltsAt(s.at, terminal) ?? Number.POSITIVE_INFINITY)),
    charge: (battery = 'G1') => Number(end.states.get(battery)?.['charge']),
  };
}
