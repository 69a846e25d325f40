import { readFileSync } from 'node:fs';
import { readCircuit } from '../../../dist/cli/circuit/readCircuit.js';
import { Predictor } from '../../../dist/cli/diagnose/predict.js';
import { drainAnswer } from '../../../dist/cli/drain/drainAnswer.js';
import { LogReader } from '../../../dist/cli/drain/log/readLog.js';
import { stepsIn } from '../../../dist/cli/drain/log/steps.js';
import { readFault } from '../../../dist/cli/faults/faultPhrase.js';
import { partKinds } from '../../../dist/cli/parts/index.js';
import { milliseconds, row } from '../measure.mjs';

const million = 1_000_000;
const piece = 1 << 18;

/** A clamp logger's file of a million rows read and stepped, and what is said of a drain on the light van. */
export async function rows() {
  const plain = Array.from({ length: million }, (_, k) => `${k / 10};${k < 2e5 ? 450 : k < 6e5 ? 120 : 23}`);
  const dated = Array.from(
    { length: million },
    (_, k) => `${new Date(1e12 + 1000 * k).toISOString().slice(0, 19)},${k % 1800 < 300 ? 0.52 : 0.02}`,
  );
  const read = (text) => () => {
    const reader = new LogReader('log.csv');
    for (let k = 0; k < text.length; k += piece) reader.push(text.slice(k, k + piece));
    stepsIn(reader.end().value);
  };
  const once = { least_ms: 1, series: 1, warm_ms: 1 };
  const file = 'circuits/light-van.yaml';
  const fresh = () => readCircuit(readFileSync(file, 'utf8'), file, partKinds).value;
  const van = fresh();
  const kept = new Predictor(van);
  const suspect = readFault('S1.30-75 stuck closed', van).value;
  drainAnswer(van, { suspect }, kept);
  return [
    row(
      'log-seconds',
      'a log of a million rows in seconds and mA: read, levels and steps',
      milliseconds(read(`time [s];current [mA]\n${plain.join('\n')}`), once),
      'ms',
      '<= 1000',
    ),
    row(
      'log-dated',
      'the same with dates and A, 555 pulses',
      milliseconds(read(`time,current (A)\n${dated.join('\n')}`), once),
      'ms',
      '<= 1000',
    ),
    row(
      'drain-first',
      'who draws, stairs, battery, plan: light van, from nothing',
      milliseconds(() => drainAnswer(fresh()), { least_ms: 1, series: 1, warm_ms: 1 }),
      'ms',
    ),
    row(
      'drain-again',
      'the same with a hypothesis, kept from the last question',
      milliseconds(() => drainAnswer(van, { suspect }, kept), { least_ms: 300, series: 2, warm_ms: 100 }),
      'ms',
    ),
  ];
}
