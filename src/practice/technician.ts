import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Scene } from '../circuit/scene.ts';
import type { Candidate } from '../diagnose/candidates.ts';
import type { Predictor } from '../diagnose/predict.ts';
import { isProofKind } from '../diagnose/verdict.ts';
import type { Fault } from '../faults/fault.ts';
import type { Action } from './action.ts';
import { type Around, type Bench, findingsOf, type Hidden, newBench } from './bench.ts';
import { beliefInTruth, bestNext, insightOf, provedFrom } from './insight.ts';
import { update } from './update.ts';

/** A search from the complaint to a named cause. */
export type Solving = {
  readonly bench: Bench;
  /** Looks, readings and tries. */
  readonly readings: number;
  /** Until the cause was known. */
  readonly minutes: number;
  readonly rivals: number;
  /** Suspects left after the complaint and after each step that told something, with the minute. */
  readonly course: readonly { readonly minute: number; readonly left: number }[];
  readonly proven: boolean;
};

export const provenBy = (solving: Solving): boolean => solving.proven;

/** Readings after which a technician gives up, and more for each further fault (estimate: few searches take more). */
const mostReadings = 14;
const moreReadings = 6;
/** So many readings that do not halve a crowd of suspects between them lead nowhere (estimate). */
const nowhere = { readings: 5, crowd: 20 } as const;

/**
 * The technician who asks the engine: always the reading worth most per minute, until the cause, or a group that no
 * reading parts, holds the belief. Works on the same bench as an apprentice, so its minutes are the apprentice's.
 *
 * @param first done before the search, such as seeing for oneself what was complained of
 * @param ways.hurried leaves a search that leads nowhere, so that another fault can be tried; a search that ends well is the same in both
 * @param ways.heard is told after each reading
 */
export function solvedBy(
  hidden: Hidden,
  predictor: Predictor,
  first: readonly Action[] = [],
  ways: { readonly hurried?: boolean; readonly heard?: ((readings: number) => void) | undefined } = {},
): Solving {
  const around: Around = { hidden, predictor };
  let bench = newBench(hidden.circuit);
  let insight = insightOf(predictor, findingsOf(hidden, bench));
  const rivals = insight.left;
  const course = [{ minute: 0, left: insight.left }];
  const tried = new Set<string>();
  let readings = 0;
  const isProven = () => beliefInTruth(predictor, insight.suspects, hidden.faults) >= provedFrom;
  const act = (actions: readonly Action[]) => {
    const told = findingsOf(hidden, bench).length;
    for (const action of actions) bench = update(around, bench, action);
    if (findingsOf(hidden, bench).length === told) return;
    insight = insightOf(predictor, findingsOf(hidden, bench));
    course.push({ minute: bench.minutes, left: insight.left });
  };
  if (first.length > 0) act(first);
  if (hidden.complaint.drain && hidden.tools.includes('clamp')) {
    readings++;
    act(keyOffReading(hidden.circuit));
  }
  const leadsNowhere = () => {
    const [before, now] = [course.at(-1 - nowhere.readings), course.at(-1)!];
    return before !== undefined && now.left > nowhere.crowd && now.left > before.left / 2;
  };
  const patience = mostReadings + moreReadings * (hidden.faults.length - 1);
  while (!isProven() && readings < patience && !(ways.hurried === true && leadsNowhere())) {
    ways.heard?.(readings);
    const next = bestNext(predictor, insight, hidden.tools, 6).find((r) => !tried.has(nameOf(r.candidate)));
    if (!next) break;
    tried.add(nameOf(next.candidate));
    readings++;
    act(toDo(hidden.circuit, bench, next.candidate));
  }
  // Looks alone never prove it: a reading at the suspect itself has to agree.
  if (isProven() && !findingsOf(hidden, bench).some(isProofKind)) {
    const proof = proofReading(hidden, bench, insight.suspects[0]?.faults[0]);
    if (proof.length > 0) {
      readings++;
      act(proof);
    }
  }
  return { bench, readings, minutes: bench.minutes, rivals, course, proven: isProven() };
}

/** Volts across the piece that is suspected, in the scene of the complaint; its current is read where the complaint has no scene. */
function proofReading(hidden: Hidden, bench: Bench, suspect: Fault | undefined): readonly Action[] {
  const part = suspect && hidden.circuit.parts.get(suspect.part);
  const told = hidden.complaint.told.at(-1);
  if (!part || !told || !hidden.tools.includes('meter')) return [];
  const poles = part.kind.poles(part);
  const pole = poles.find((p) => suspect.mode.subject === `${part.id}.${p.element ?? p.id}`) ?? poles[0];
  const ends = pole ? [pole.from, pole.to] : part.kind.terminals(part).map((t) => t.name);
  if (ends.length < 2 || ends.some((e) => e === 'ground' || e === 'block')) return [];
  return [...setUp(hidden.circuit, bench.scene, told.scene), { do: 'volts', red: `${part.id}.${ends[0]}`, black: `${part.id}.${ends[1]}` }];
}

const nameOf = ({ scene, observable }: Candidate): string => JSON.stringify([observable.of === 'ohms' ? '' : scene, observable]);

/** The current at the battery's return with the key out. */
export function keyOffReading(circuit: Circuit): readonly Action[] {
  for (const part of circuit.parts.values()) {
    const ends = part.kind.supply?.(part);
    if (ends) return [...(keySwitchOf(circuit) ? [{ do: 'key', is: 'out' } as const] : []), { do: 'clamp', at: `${part.id}.${ends[1]}` }];
  }
  return [];
}

/** Actions that set up a reading and take it. */
export function toDo(circuit: Circuit, bench: Bench, { scene, observable }: Candidate): readonly Action[] {
  switch (observable.of) {
    case 'ohms':
      return [
        {
          do: 'bench',
          part: observable.part,
          at: observable.at,
          to: observable.to,
          ...(observable.angle !== undefined && { angle: observable.angle }),
        },
      ];
    case 'touch':
      return [{ do: 'wiggle', part: observable.part }];
    case 'exchange':
      return [{ do: 'swap', part: observable.part }];
    case 'load':
      return [...setUp(circuit, bench.scene, scene), { do: 'look', load: observable.load }];
    case 'engine':
      return setUp(circuit, bench.scene, scene, true);
    case 'volts':
      return [
        ...setUp(circuit, bench.scene, scene),
        { do: observable.instrument === 'meter' ? 'volts' : 'lamp', red: observable.at, black: observable.to },
      ];
    case 'amperes':
      return [...setUp(circuit, bench.scene, scene), { do: observable.instrument === 'clamp' ? 'clamp' : 'amps', at: observable.at }];
  }
}

/** Hand, plugs and jumper first, the key last: so that what the engine does is seen in the whole scene. */
export function setUp(circuit: Circuit, from: Scene, to: Scene, again = false): readonly Action[] {
  const actions: Action[] = [];
  for (const part of from.apart) if (!to.apart.includes(part)) actions.push({ do: 'refit', part });
  if (from.bridged.length > 0 && to.bridged.length === 0) actions.push({ do: 'unbridge' });
  const rest = (id: string) => circuit.parts.get(id)?.kind.settings?.(circuit.parts.get(id)!)[0] ?? '';
  for (const [part, setting] of Object.entries(from.hand))
    if (to.hand[part] === undefined && setting !== rest(part)) actions.push({ do: 'set', part, setting: rest(part) });
  for (const [part, setting] of Object.entries(to.hand))
    if ((from.hand[part] ?? rest(part)) !== setting) actions.push({ do: 'set', part, setting });
  for (const part of to.apart) if (!from.apart.includes(part)) actions.push({ do: 'unplug', part });
  for (const ends of to.bridged) actions.push({ do: 'bridge', ends, fused: true });
  actions.push(...turns(circuit, from, to, again));
  return actions;
}

function turns(circuit: Circuit, from: Scene, to: Scene, again: boolean): readonly Action[] {
  const lock = keySwitchOf(circuit);
  if (!lock || !to.key || !from.key) return [];
  const there = from.key.angle === to.key.angle && from.key.came === to.key.came && from.key.in === to.key.in;
  if (there && !again && from.engine === to.engine) return [];
  const home = lock.model.positions[0]!;
  const back: readonly Action[] = from.key.angle === home.angle && from.engine === 'stopped' ? [] : [{ do: 'turn', angle: home.angle }];
  if (to.key.came === 'back') {
    const sprung = lock.model.positions.find(
      (p) => p.springsTo !== undefined && lock.model.positions.find((q) => q.name === p.springsTo)?.angle === to.key!.angle,
    );
    return sprung ? [...back, { do: 'turn', angle: sprung.angle }, { do: 'release' }] : [{ do: 'turn', angle: to.key.angle }];
  }
  return to.key.angle === home.angle ? back : [...back, { do: 'turn', angle: to.key.angle }];
}
