import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { play } from '../../src/play/play.ts';
import { readStory } from '../../src/play/story.ts';
import { stripAt, stripOf } from '../../src/report/strip.ts';

const read = readCircuit(readFileSync('circuits/light-van.yaml', 'utf8'), 'light-van.yaml', partKinds);
if (!read.ok) throw new Error('the van has problems');
const circuit = read.value;
function stripFor(words: string) {
  const story = readStory(words, circuit, 'test');
  if (!story.ok) throw new Error(story.problems[0]?.what);
  return stripOf(play(circuit, story.value), circuit);
}
const strip = stripFor('LOCK, ON 1 s, START 1.5 s, release, wait 1 s');

test('stretches of every line follow each other without gap or overlap, from the start to the end', () => {
  for (const { stretches } of strip.loads) {
    expect(stretches[0]!.from).toBe(0);
    expect(stretches.at(-1)!.to).toBe(strip.seconds);
    for (const [k, s] of stretches.entries()) {
      expect(s.to).toBeGreaterThanOrEqual(s.from);
      if (k > 0) {
        expect(s.from).toBe(stretches[k - 1]!.to);
        expect(s.word).not.toBe(stretches[k - 1]!.word);
      }
    }
  }
});

test('only loads on which something happens have a line: the starter, and not the brake lamps that nobody switches on', () => {
  expect(strip.loads.map((l) => l.id)).toContain('M1');
  expect(strip.loads.map((l) => l.id)).not.toContain('E1');
});

test('scrubbed into START the key is held there and the engine has been cranked; after the release it came back', () => {
  const start = strip.engine.find((s) => s.word === 'cranks')!;
  const held = stripAt(strip, (start.from + start.to) / 2);
  expect(held).toMatchObject({ angle: 85, engine: 'cranks' });
  expect(stripAt(strip, strip.seconds)).toMatchObject({ angle: 55, came: 'back', engine: 'runs' });
  expect(strip.key[0]!.angle).toBe(0);
});

test('a story in which nothing happens has no lines', () => {
  expect(stripFor('wait 1 s').loads).toEqual([]);
});
