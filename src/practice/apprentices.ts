import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { ownerOf } from '../circuit/ownerOf.ts';
import type { Predictor } from '../diagnose/predict.ts';
import type { Fault } from '../faults/fault.ts';
import { faultOf } from '../faults/fault.ts';
import { faultModes } from '../faults/faultModes.ts';
import { network } from '../solve/network.ts';
import { operatingPoint, voltsAt } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';
import type { Action } from './action.ts';
import { type Around, type Bench, findingsOf, type Hidden, newBench } from './bench.ts';
import { Chance, mixedSeed } from './chance.ts';
import { insightOf } from './insight.ts';
import { setUp, solvedBy } from './technician.ts';
import { update } from './update.ts';

/** Somebody who works the bench by a rule of their own; for holding the marks against. */
export type Apprentice = (hidden: Hidden, predictor: Predictor) => Bench;

const acting = (around: Around, actions: readonly Action[], from: Bench): Bench =>
  actions.reduce((bench, a) => update(around, bench, a), from);

/** The end of a search: the parts repaired, the whole table run again, the cause named. */
function ended(around: Around, bench: Bench, faults: readonly Fault[]): Bench {
  const parts = [...new Set(faults.map((f) => f.part))];
  return acting(
    around,
    [...parts.map((part): Action => ({ do: 'repair', part })), { do: 'walk' }, { do: 'name', faults: faults.map((f) => f.phrase) }],
    bench,
  );
}

/** Asks the engine for every step, and starts by seeing for itself what was told. */
export const byEngine: Apprentice = (hidden, predictor) => {
  const around = { hidden, predictor };
  const { bench } = solvedBy(hidden, predictor, reproduced(hidden));
  const top = insightOf(predictor, findingsOf(hidden, bench)).suspects[0];
  return ended(around, bench, top?.faults ?? []);
};

/** The scene of the complaint set up, and looked at. */
function reproduced({ circuit, complaint }: Hidden): readonly Action[] {
  const told = complaint.told.at(-1);
  return told ? [...setUp(circuit, newBench(circuit).scene, told.scene), { do: 'look' }] : [];
}

/** Readings that somebody without a plan takes before giving a verdict. */
const aimless = 8;

/** Reads anywhere, in any place of the key, and blames a part at random. */
export const byChance: Apprentice = (hidden, predictor) => {
  const around = { hidden, predictor };
  const { circuit } = hidden;
  const chance = new Chance(mixedSeed('random apprentice', hidden.seed, circuit.title));
  const terminals = [...circuit.parts.values()]
    .filter((p) => !p.kind.isWire)
    .flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`));
  const positions = keySwitchOf(circuit)?.model.positions ?? [];
  let bench = newBench(circuit);
  for (let k = 0; k < aimless; k++) {
    if (positions.length > 0) bench = update(around, bench, { do: 'turn', angle: chance.oneOf(positions).angle });
    bench = update(around, bench, { do: 'volts', red: chance.oneOf(terminals), black: 'ground' });
  }
  const { part, mode } = chance.oneOf(faultModes(circuit));
  return ended(around, bench, [faultOf(part, mode)]);
};

/**
 * Halves the way of the current of the load complained of, by volts against what a healthy vehicle would show there,
 * without weighing anything else; then blames the piece between the last two points.
 */
export const byHalves: Apprentice = (hidden, predictor) => {
  const around = { hidden, predictor };
  const { circuit, complaint } = hidden;
  let bench = newBench(circuit);
  const told = complaint.told.find((f) => f.observable.of === 'load') ?? complaint.told.at(-1);
  const id = told?.observable.of === 'load' ? told.observable.load : (circuit.engine?.spark[0] ?? circuit.engine?.crank);
  const load = id === undefined ? undefined : circuit.parts.get(id);
  if (!told || !load) return byChance(hidden, predictor);
  bench = acting(around, [...setUp(circuit, bench.scene, told.scene), { do: 'look' }], bench);
  const sound = operatingPoint(network(circuit, [], told.scene), told.scene);
  const paths = currentPaths(sound, load);
  const way = [...new Set([...paths.feed.terminals, ...paths.return.terminals])].filter((t) => ownerOf(t) !== '');
  if (way.length < 2) return byChance(hidden, predictor);
  let [low, high] = [0, way.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    bench = update(around, bench, { do: 'volts', red: way[middle]!, black: 'ground' });
    const read = bench.steps.at(-1)?.findings[0]?.seen;
    const should = voltsAt(sound, way[middle]!) ?? 0;
    const isSound = read !== undefined && 'value' in read && Math.abs(read.value - should) < 0.3 + 0.1 * Math.abs(should);
    if (isSound) low = middle;
    else high = middle;
  }
  const [before, behind] = [way[low]!, way[high]!];
  const part = ownerOf(before) === ownerOf(behind) ? ownerOf(before) : (wireBetween(around, before, behind) ?? ownerOf(behind));
  const modes = faultModes(circuit).filter((f) => f.part === part);
  const near = modes.find((f) => f.mode.subject.endsWith(`.${before.split('.').at(-1)}-${behind.split('.').at(-1)}`)) ?? modes[0];
  return ended(around, bench, near ? [faultOf(near.part, near.mode)] : []);
};

function wireBetween({ hidden }: Around, a: string, b: string): string | undefined {
  const ends = new Map<string, string[]>();
  for (const [end, terminal] of hidden.circuit.attached) ends.set(ownerOf(end), [...(ends.get(ownerOf(end)) ?? []), terminal]);
  return [...ends].find(([, list]) => list.includes(a) && list.includes(b))?.[0];
}
