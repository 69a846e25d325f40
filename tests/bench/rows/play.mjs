import { readFileSync } from 'node:fs';
import { readCircuit } from '../../../dist/cli/circuit/readCircuit.js';
import { readFault } from '../../../dist/cli/faults/faultPhrase.js';
import { putOf } from '../../../dist/cli/faults/putOf.js';
import { partKinds } from '../../../dist/cli/parts/index.js';
import { play } from '../../../dist/cli/play/play.js';
import { readStory } from '../../../dist/cli/play/story.js';
import { milliseconds, row } from '../measure.mjs';

const busy = (seconds) =>
  `LOCK, ON ${seconds} s, START 1.5 s, ease to 75° 3 s, release, ON 20 s, S2 at 2, wait 10 s, S12 at left 10 s, S12 at mid, S6 on 5 s, S6 off, LOCK 5 s, key out 3 s`;

/** Stories on the light van. The first wait differs from call to call, so that no call finds the instants of another. */
export async function rows() {
  const file = 'circuits/light-van.yaml';
  const van = readCircuit(readFileSync(file, 'utf8'), file, partKinds).value;
  const stuck = putOf([readFault('S1.30-75 stuck closed', van).value]);
  const time = (story, put) =>
    milliseconds((k) => play(van, readStory(story(2 + k / 1000), van, 'story').value, put), { least_ms: 400, series: 3, warm_ms: 600 });
  const plain = (s) => `LOCK, ON ${s} s, START 1.5 s, ease to 75° 3 s, release, ON 50 s, LOCK 2 s`;
  return [
    row('play-minute', 'a story of 60 s on the light van: start, ease, run, stop', time(plain), 'ms', '<= 300'),
    row('play-busy', 'the same with lamps, flasher and wiper', time(busy), 'ms', '<= 300'),
    row(
      'play-weeks',
      'three weeks of the light van with the key out',
      time((s) => `ON ${s} s, key out 21 days`),
      'ms',
      '<= 300',
    ),
    row(
      'play-flat',
      'the same with the accessory contact stuck: flat on the third day',
      time((s) => `ON ${s} s, key out 21 days`, stuck),
      'ms',
      '<= 300',
    ),
  ];
}
