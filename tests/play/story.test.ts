import { describe, expect, test } from 'vitest';
import { readStory } from '../../src/play/story.ts';
import { vehicle } from '../circuits/vehicle.ts';

const van = vehicle('light-van').circuit;
const read = (text: string) => readStory(text, van, 'story.txt');

function steps(text: string) {
  const story = read(text);
  if (!story.ok) throw new Error(story.problems.map((p) => `${p.line}:${p.column} ${p.what}`).join('\n'));
  return story.value;
}
function problems(text: string) {
  return read(text).problems.map(({ line, column, length, code, mend }) => ({ line, column, length, code, mend }));
}

describe('a story', () => {
  test('is steps with the time after each', () => {
    const story = steps('LOCK, ON 2 s, START 1.5 s, ease to 75° 3 s, release, ON 5 s, LOCK, key out 30 min');
    expect(story.map((s) => s.holds)).toEqual([0, 2, 1.5, 3, 0, 5, 0, 1800]);
    expect(story.map((s) => s.does.act)).toEqual(['turn', 'turn', 'turn', 'turn', 'release', 'turn', 'turn', 'key out']);
    expect(story[3]?.does).toMatchObject({ slowly: true, to: { angle: 75 } });
  });
  test.each([
    ['wait 300 ms', 0.3],
    ['wait 2 min', 120],
    ['wait 1.5 h', 5400],
    ['wait 3 days', 259_200],
    ['wait 2 weeks', 1_209_600],
    ['1 day', 86_400],
    ['wait', 0],
  ])('%s takes %f s', (text, seconds) => {
    expect(steps(text)[0]?.holds).toBe(seconds);
  });
  test('may stand on lines, with remarks', () => {
    expect(steps('# a cold morning\nON 2 s   # lamps\n\nSTART 1 s, release').map((s) => s.text)).toEqual([
      'ON 2 s',
      'START 1 s',
      'release',
    ]);
  });
  test.each([
    ['unplug X2', 'apart', false],
    ['plug in X2', 'apart', true],
    ['pull F3', 'apart', false],
    ['put back F3', 'apart', true],
    ['bridge S1.30 S1.15', 'bridge', false],
    ['unbridge S1.30 S1.15', 'bridge', true],
    ['swap S1', 'swap', false],
    ['S2 at 2', 'set', false],
    ['E8 switch open', 'set', false],
  ])('%s is done by hand: %s, undone %s', (text, does, back) => {
    expect(steps(text)[0]?.does).toMatchObject({ act: 'hand', back, hand: { does } });
  });
  test('a setting that is a number keeps its time apart', () => {
    expect(steps('S2 at 2 5 s')[0]).toMatchObject({ holds: 5, does: { hand: { settings: [{ part: 'S2', setting: '2' }] } } });
  });
});

describe('what is no story is said where it stands', () => {
  test('with near words', () => {
    expect(problems('LOCK, ONN 2 s')).toEqual([{ line: 1, column: 7, length: 3, code: 'unknown-step', mend: ['ON'] }]);
    expect(problems('ON, releas 2 s')[0]).toMatchObject({ column: 5, code: 'unknown-step', mend: expect.arrayContaining(['release']) });
  });
  test.each([
    ['ON 1e9 s', 4, 'ON 520 weeks'],
    ['ON 1e3 s', 4, 'ON 1000 s'],
    ['ON 5', 4, 'ON 2 s'],
    ['ON -2 s', 4, 'ON 2 s'],
    ['ON 9999 weeks', 4, 'ON 520 weeks'],
  ])('a time that is not understood, and not the act before it: %s', (text, column, mend) => {
    expect(problems(text)).toMatchObject([{ column, code: 'step-time', mend: [mend] }]);
    expect(problems(mend)).toEqual([]);
  });
  test('all of it at once, each on its line', () => {
    expect(problems('ON 2 s\nunplug X99, START 1 s\nease to nowhere').map((p) => [p.line, p.column])).toEqual([
      [2, 8],
      [3, 9],
    ]);
  });
  test('an empty one', () => {
    expect(problems('  ')[0]).toMatchObject({ code: 'story-empty' });
    expect(problems('# nothing')[0]).toMatchObject({ code: 'story-empty' });
  });
  test('noise never throws', () => {
    for (const noise of [
      ',,,',
      'ease',
      'ease to',
      'between',
      'bridge',
      '°',
      'key',
      '5',
      'ON ON',
      'wait -3 s',
      '\u0000',
      'S2 at',
      'a'.repeat(5000),
    ])
      expect(() => read(noise)).not.toThrow();
  });
});
