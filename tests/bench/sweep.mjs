/**
 * Every single fault of every library circuit (or a seeded share of them), and seeded pairs, each searched for by a
 * simulated technician with a simulated meter.
 *
 *   npm run sweep                 all faults of all circuits: hours
 *   npm run sweep -- 10 20        ten faults a circuit and twenty pairs in all; SWEEP_SEED=77 draws others
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const share = Number(process.argv[2] ?? Number.POSITIVE_INFINITY);
  const pairs = Number(process.argv[3] ?? 500);
  const only = process.argv[4]?.split(',');
  const results = await sweep(share, pairs, only, (line) => console.error(line));
  console.log(JSON.stringify(results, null, 2));
}

export async function sweep(perCircuit, pairCount, only, say = () => {}) {
  const root = new URL('../../dist/cli/', import.meta.url);
  const { readCircuit } = await import(new URL('circuit/readCircuit.js', root));
  const { partKinds } = await import(new URL('parts/index.js', root));
  const { Predictor } = await import(new URL('diagnose/predict.js', root));
  const { singleHypotheses, together } = await import(new URL('diagnose/hypotheses.js', root));
  const { played } = await import(new URL('diagnose/technician.js', root));
  const { byHand } = await import(new URL('diagnose/byHand.js', root));
  const { draw } = await import(new URL('play/random.js', root));
  const { faultOf } = await import(new URL('faults/fault.js', root));
  let state = Number(process.env.SWEEP_SEED ?? 1971);
  const random = () => {
    const [chance, next] = draw(state);
    state = next;
    return chance;
  };
  const folder = new URL('../../circuits/', import.meta.url);
  const names = readdirSync(folder).filter((f) => f.endsWith('.yaml') && (!only || only.includes(f.replace('.yaml', ''))));
  const single = tally();
  const steady = tally();
  const between = tally();
  const pair = tally();
  const lost = [];
  const keep = (one) => {
    lost.push(one);
    say(`lost: ${JSON.stringify(one)}`);
  };
  for (const name of names) {
    const circuit = readCircuit(readFileSync(new URL(name, folder), 'utf8'), name, partKinds).value;
    let predictor = new Predictor(circuit);
    const all = singleHypotheses(circuit).filter((h) => h.faults.length > 0);
    const chosen = all.length <= perCircuit ? all : Array.from({ length: perCircuit }, () => all[Math.floor(random() * all.length)]);
    const own = tally();
    for (const [k, truth] of chosen.entries()) {
      if (k % 25 === 24) predictor = new Predictor(circuit);
      const search = played(predictor, truth, random);
      const kinds = truth.faults.some((f) => f.mode.sometimes) ? [own, single] : [own, single, steady];
      for (const t of kinds) t.add(search, byHand(predictor, truth));
      if (search && !search.isolated)
        keep({
          circuit: name,
          truth: truth.faults.map((f) => f.phrase),
          said: search.findings.map((f) => f.phrase),
          state: search.state,
        });
    }
    for (const truth of betweenGrades(all, Math.min(all.length, Math.ceil(perCircuit / 3)), random, faultOf)) {
      const search = played(predictor, truth, random);
      for (const t of [own, between]) t.add(search, byHand(predictor, truth));
    }
    say(`${name}: ${JSON.stringify(own.said())}`);
    const ownPairs = tally();
    const two = Math.round(pairCount / names.length);
    // Most pairs drawn hold a fault that nobody notices, or that hides behind the other: no search for two begins there.
    for (let k = 0; ownPairs.noticed() < two && k < 60 * two; k++) {
      if (k % 25 === 24) predictor = new Predictor(circuit);
      const [a, b] = [all[Math.floor(random() * all.length)], all[Math.floor(random() * all.length)]];
      if (a.faults[0].part === b.faults[0].part) continue;
      const truth = together(a, b);
      const search = played(predictor, truth, random, { most: 18 });
      for (const t of [ownPairs, pair]) t.add(search);
      if (search && !search.amongThree)
        keep({
          circuit: name,
          truth: truth.faults.map((f) => f.phrase),
          said: search.findings.map((f) => f.phrase),
          state: search.state,
        });
    }
    if (two > 0) say(`${name}, pairs: ${JSON.stringify(ownPairs.said())}`);
  }
  return { single: single.said(), steady: steady.said(), betweenGrades: between.said(), pairs: pair.said(), lost };
}

/** Faults as bad as no grade that the search begins with: halfway between two, on a scale of decades. */
function betweenGrades(all, many, random, faultOf) {
  const graded = all.filter((h) => (h.faults[0].mode.detail?.grades.length ?? 0) > 1 && h.faults[0].detail > 0);
  return Array.from({ length: graded.length === 0 ? 0 : many }, () => {
    const { faults, prior, suspect } = graded[Math.floor(random() * graded.length)];
    const { part, mode } = faults[0];
    const [a, b] = mode.detail.grades.filter((g) => g > 0).sort((x, y) => x - y);
    const share = 0.3 + 0.4 * random();
    return { faults: [faultOf(part, mode, a ** (1 - share) * (b ?? 2 * a) ** share)], prior, suspect };
  });
}

function tally() {
  const sum = {
    asked: 0,
    unnoticed: 0,
    isolated: 0,
    amongThree: 0,
    proved: 0,
    wronglyProved: 0,
    readings: 0,
    minutes: 0,
    halfSplit: 0,
    swapFirst: 0,
  };
  return {
    noticed: () => sum.asked - sum.unnoticed,
    add(search, hand) {
      sum.asked++;
      if (!search) {
        sum.unnoticed++;
        return;
      }
      sum.isolated += search.isolated;
      sum.amongThree += search.amongThree;
      sum.proved += search.state === 'proved';
      sum.wronglyProved += search.state === 'proved' && !search.isolated;
      sum.readings += search.readings;
      sum.minutes += search.minutes;
      sum.halfSplit += hand?.halfSplit ?? 0;
      sum.swapFirst += hand?.swapFirst ?? 0;
    },
    said() {
      const n = sum.asked - sum.unnoticed || 1;
      const round = (x) => Math.round(1000 * x) / 1000;
      return {
        asked: sum.asked,
        unnoticed: sum.unnoticed,
        isolated: round(sum.isolated / n),
        amongThree: round(sum.amongThree / n),
        proved: round(sum.proved / n),
        wronglyProved: round(sum.wronglyProved / n),
        readings: round(sum.readings / n),
        minutes: round(sum.minutes / n),
        minutesHalfSplit: round(sum.halfSplit / n),
        minutesSwapFirst: round(sum.swapFirst / n),
      };
    },
  };
}
