import { describe, expect, test } from 'vitest';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { play } from '../../src/play/play.ts';
import { readStory } from '../../src/play/story.ts';
import { vehicle } from './vehicle.ts';

/** Plays a story; the engine's word at the end of each of its parts, the parts told apart by `|`. */
function engineAt(name: string, story: string, ...faults: readonly string[]): readonly string[] {
  const { circuit } = vehicle(name);
  const changes = changesOf(
    faults.map((phrase) => {
      const read = readFault(phrase, circuit);
      if (!read.ok) throw new Error(phrase);
      return read.value;
    }),
  );
  let from: Parameters<typeof play>[3] = 1;
  return story.split('|').map((part) => {
    const steps = readStory(part.trim(), circuit, 'story');
    if (!steps.ok) throw new Error(`${part}: ${steps.problems.map((p) => p.what).join('; ')}`);
    const played = play(circuit, steps.value, { changes, sometimes: [] }, from);
    expect(played.chatters, part).toBeUndefined();
    from = played.end;
    return played.samples.at(-1)!.engine;
  });
}

// What everybody expects of a sound vehicle: it cranks, runs after release, and stops (the tractor by its knob only).
describe('a sound vehicle starts, runs and stops', () => {
  test.each([
    ['light-van', 'ON 1 s, START 0.1 s | START 1 s, release 3 s | LOCK 3 s', 'cranks runs still'],
    ['saloon', 'ON 1 s, START 0.1 s | START 1 s, release 3 s | 0 3 s', 'cranks runs still'],
    ['motorcycle', 'ON 1 s, S3 on 0.1 s | S3 on 1 s, S3 off 3 s | OFF 3 s', 'cranks runs still'],
    ['tractor', 'S3 pressed, HEAT 5 s, START 0.1 s | START 1 s, release 3 s | OFF 3 s', 'cranks runs runs'],
    ['diesel-estate', 'S5 pressed, ON 5 s, START 0.1 s | START 1 s, release 3 s | OFF 3 s', 'cranks runs still'],
    ['truck', 'ON 2 s, START 0.1 s | START 1 s, release 3 s | 0 6 s', 'cranks runs still'],
    ['classic-six-volt', 'ON 1 s, S2 on 0.1 s | S2 on 1 s, S2 off 3 s | OFF 3 s', 'cranks runs still'],
    ['boat', 'ON 1 s, START 0.1 s | START 1 s, release 3 s | OFF 3 s', 'cranks runs still'],
    ['modern-saloon', 'S2 pressed, ON 1 s, START 0.1 s | START 1 s, release 3 s | OFF 3 s', 'cranks runs still'],
  ])('%s: %s: %s', (name, story, words) => {
    expect(engineAt(name, story).join(' ')).toBe(words);
  });
});

describe('faults that are told from each other by what the engine does', () => {
  test.each([
    ['light-van', 'ON 1 s, START 1.5 s | release 3 s', 'S1.30-15 open at ON', 'runs still', 'fires, dies on release'],
    ['light-van', 'ON 1 s, START 1.5 s | release 3 s', 'R1 open', 'runs still', 'ballast open: fires, dies on release as well'],
    ['diesel-estate', 'S5 pressed, ON 1 s, START 1.5 s | release 3 s', 'S1.30-15 open at ON', 'runs still', 'fires, dies on release'],
    ['truck', 'ON 2 s, START 1.5 s, release 3 s | 0 4 s', 'F5 blown', 'runs runs', 'cannot be stopped by the key'],
    ['boat', 'ON 1 s, START 1.5 s, release 3 s | OFF 4 s', 'W14a open', 'runs runs', 'cannot be stopped by the key'],
    ['boat', 'ON 1 s, START 1.5 s, release 3 s | S2 on 4 s', 'S1.M1-M2 open', 'runs still', 'the clip still kills'],
    ['saloon', 'ON 3 s, START 2 s | release 3 s', 'K3.coil open', 'cranks still', 'no fuel'],
    ['modern-saloon', 'S2 pressed, S11 on, ON 1 s, START 2 s', 'S1 lost motion 3°', 'still', 'key not known: silence'],
  ])('%s: %s with %s: %s (%s)', (name, story, fault, words) => {
    expect(engineAt(name, story, fault).join(' ')).toBe(words);
  });
});
