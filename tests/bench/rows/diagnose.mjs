import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readCircuit } from '../../../dist/cli/circuit/readCircuit.js';
import { usualTools } from '../../../dist/cli/diagnose/candidates.js';
import { expectedCost, leastCost, planned } from '../../../dist/cli/diagnose/decisionTree.js';
import { belief } from '../../../dist/cli/diagnose/diagnose.js';
import { readFinding } from '../../../dist/cli/diagnose/findingPhrase.js';
import { singleHypotheses } from '../../../dist/cli/diagnose/hypotheses.js';
import { nextReadings } from '../../../dist/cli/diagnose/nextReading.js';
import { believed, massOf } from '../../../dist/cli/diagnose/outcomes.js';
import { Predictor } from '../../../dist/cli/diagnose/predict.js';
import { partKinds } from '../../../dist/cli/parts/index.js';
import { row } from '../measure.mjs';
import { sweep } from '../sweep.mjs';

const top = fileURLToPath(new URL('../../../', import.meta.url));
const circuitOf = (name) => {
  const read = readCircuit(readFileSync(`${top}circuits/${name}.yaml`, 'utf8'), name, partKinds);
  if (!read.ok) throw new Error(read.problems[0].what);
  return read.value;
};
const seconds = () => process.cpuUsage().user / 1e6;
const complaint = ['START: engine fires', 'between ON and START: engine runs', 'ON after START: engine dies', 'ON: H1 dead'];

/** Speed of the search on the van (75 parts, 126 wires) in seconds of the processor, and how well it finds what is known to be in. */
export async function rows() {
  const circuit = circuitOf('light-van');
  const said = complaint.flatMap((phrase) => readFinding(phrase, circuit).value);
  // Once for the compiler, once for the clock: the page keeps its worker warm.
  let first = 0;
  let all = 0;
  let next = 0;
  for (let round = 0; round < 2; round++) {
    const predictor = new Predictor(circuit);
    let begin = seconds();
    belief(circuit, said.slice(3), {}, predictor);
    first = seconds() - begin;
    const known = belief(circuit, said, {}, predictor);
    nextReadings(predictor, known.suspects, known.findings, usualTools);
    begin = seconds();
    nextReadings(predictor, known.suspects, known.findings, usualTools);
    next = seconds() - begin;
    const later = readFinding('ON: Y1 dead', circuit).value;
    begin = seconds();
    belief(circuit, [...said, ...later], {}, predictor);
    all = seconds() - begin;
  }
  const updates = screenSpeed(circuit);
  const share = await sweep(1, 0, ['bench-board', 'motorcycle']);
  return [
    row('diagnose.first', 'first suspects from one finding in one scene, light van', first, 's', '<= 0.3'),
    row('diagnose.another', 'suspects after one more finding in one new scene, light van', all, 's', '<= 0.3'),
    row('diagnose.next', 'next reading, all scenes factored, light van', next, 's', '<= 1'),
    row('diagnose.screen', 'hypotheses times scenes a second by updates, light van, six scenes', updates.rate, '1/s', '>= 300000'),
    row('diagnose.whole', 'share of these that had to be solved whole', updates.whole, '', '<= 0.02'),
    row('diagnose.plan', 'plan over the best of all plans, bench board', planRatio(), 'x', '<= 1.1'),
    row(
      'diagnose.isolated',
      'seeded faults isolated to their group, two circuits (npm run sweep: all)',
      share.single.isolated,
      '',
      '>= 0.99',
    ),
  ];
}

/** Six scenes of the position table, every single fault in each, after a first pass over others. */
function screenSpeed(circuit) {
  const predictor = new Predictor(circuit);
  const { vehicles } = predictor;
  const worlds = singleHypotheses(circuit).flatMap((h) => vehicles.of(h.faults));
  const scenes = ['LOCK', 'ACC', 'ON', 'START', 'ON after START', 'ON, S8 pressed'].map(
    (key) => readFinding(`${key}: E1 works`, circuit).value[0].scene,
  );
  for (const scene of scenes) for (const v of worlds) vehicles.answer(v, scene);
  const fresh = scenes.map((scene) => ({ ...scene, hand: { ...scene.hand, S14: 'open' } }));
  const before = { ...vehicles.counts };
  const begin = seconds();
  for (const v of worlds) for (const scene of fresh) vehicles.answer(v, scene);
  const rate = (worlds.length * fresh.length) / (seconds() - begin);
  return { rate, whole: (vehicles.counts.whole - before.whole) / (worlds.length * fresh.length) };
}

/** The plan by lookahead against the best of all, on the bench board's eight likeliest suspects and ten best readings. */
function planRatio() {
  const circuit = circuitOf('bench-board');
  const predictor = new Predictor(circuit);
  const said = ['ON: H1 dead'].flatMap((phrase) => readFinding(phrase, circuit).value);
  const { suspects, findings } = belief(circuit, said, {}, predictor);
  const steady = suspects.filter((s) => !s.faults.some((f) => f.mode.sometimes)).slice(0, 10);
  const whole = steady.reduce((sum, s) => sum + s.probability, 0);
  const some = steady.map((s) => ({
    ...s,
    probability: s.probability / whole,
    grades: s.grades.map((g) => ({ ...g, share: g.share / whole })),
  }));
  const held = believed(some, 16, 1);
  const mass = massOf(held, some.length);
  const tests = nextReadings(predictor, some, findings, usualTools, 10).map((what) => ({
    what,
    cost: what.minutes,
    outcomes: what.outcomes,
  }));
  const best = leastCost(tests, mass, {}, 100000);
  return best && best.cost > 0 ? expectedCost(planned(tests, mass)) / best.cost : 1;
}
