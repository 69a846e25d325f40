import type { Circuit } from '../src/circuit/circuit.ts';
import { changesOf, type Fault } from '../src/faults/fault.ts';
import { play } from '../src/play/play.ts';
import { readStory } from '../src/play/story.ts';
import { stripOf } from '../src/report/strip.ts';
import type { Calls } from './calls.ts';

/** Plays a story in words, with faults in; those that come and go do so by the seed. */
export function storyStrip(circuit: Circuit, put: readonly Fault[], story: string, seed: number): Calls['play']['gives'] {
  const steps = readStory(story, circuit, 'story');
  if (!steps.ok) return { problems: steps.problems };
  const sometimes = put.filter((f) => f.mode.sometimes).map((f) => ({ share: f.detail, changes: changesOf([f]) }));
  const always = changesOf(put.filter((f) => !f.mode.sometimes));
  return { strip: stripOf(play(circuit, steps.value, { changes: always, sometimes }, seed), circuit), problems: steps.problems };
}
