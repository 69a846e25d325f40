import { untouched } from '../circuit/scene.ts';
import { alreadySeen, type Candidate, dropReading, handsOn, pointReading, probesOf, stagesOf, type Tool } from './candidates.ts';
import { minutesPerMoney, step_min } from './costs.ts';
import type { Finding } from './finding.ts';
import { cutOf, type Held, massOf, outcomesOf, sayingsOf, unitOf } from './outcomes.ts';
import type { Predictor } from './predict.ts';
import { byWorth, type NextReading } from './survey.ts';
import type { Suspect } from './suspects.ts';
import { placeName } from './verdict.ts';

/** Rivals that a proof is looked for against: the likeliest ones of other places. */
const mostRivals = 24;
/** Under this a reading does not part the suspect from its rivals, bits of the one that even odds hold. */
const leastBits = 0.2;

/**
 * Readings that would prove the first suspect: those that would come out otherwise for its rivals. For a search that
 * looks and questions alone have brought to one place: there no reading is worth its minutes by what it still tells,
 * and the proof is missing all the same.
 *
 * The first suspect and all of its rivals together are given even odds, so that what counts is what parts them. Leads
 * go on the suspect itself, in the plain key positions; and whatever can be done to it by hand.
 *
 * @returns the most telling for their minutes first; none when nothing within reach parts them
 */
export function proofReadings(
  predictor: Predictor,
  suspects: readonly Suspect[],
  findings: readonly Finding[],
  tools: readonly Tool[],
  most = 3,
): readonly NextReading[] {
  const held = evenOdds(suspects);
  if (held.length < 2) return [];
  const many = 1 + Math.max(...held.map((h) => h.suspect));
  const mass = massOf(held, many);
  const found = candidatesAt(predictor, suspects[0]!, tools)
    .filter((c) => !alreadySeen(c, findings))
    .map((candidate): NextReading => {
      const cut = cutOf(sayingsOf(predictor, candidate, held), mass);
      const cost = candidate.minutes + candidate.price * minutesPerMoney + step_min;
      const { minutes } = candidate;
      return {
        candidate,
        minutes,
        bits: cut.bits,
        worth: cut.bits / cost,
        outcomes: outcomesOf(cut, unitOf(candidate), many),
        again: false,
      };
    });
  return found
    .filter((r) => r.bits >= leastBits)
    .sort(byWorth)
    .slice(0, most);
}

function evenOdds(suspects: readonly Suspect[]): readonly Held[] {
  const [top] = suspects;
  if (!top || top.faults.length === 0) return [];
  const rivals = [...suspects.keys()].filter((k) => k > 0 && placeName(suspects[k]!) !== placeName(top)).slice(0, mostRivals);
  // Rivals far apart in belief count more alike: the proof must stand against the unlikely ones too.
  const weight = (k: number) => Math.cbrt(suspects[k]!.probability);
  const whole = rivals.reduce((sum, k) => sum + weight(k), 0);
  if (whole === 0) return [];
  return [
    { suspect: 0, mass: 0.5, faults: top.faults },
    ...rivals.map((suspect) => ({ suspect, mass: (0.5 * weight(suspect)) / whole, faults: suspects[suspect]!.faults })),
  ];
}

/** What can be read at the suspect itself with the key in any position and nothing else switched. */
function candidatesAt(predictor: Predictor, top: Suspect, tools: readonly Tool[]): readonly Candidate[] {
  const parts = [...new Set(top.faults.map((f) => f.part))];
  const byHand = handsOn(predictor, parts, tools).filter((c) => c.observable.of !== 'load' && c.observable.of !== 'engine');
  if (!tools.includes('meter')) return byHand;
  const { circuit, vehicles } = predictor;
  const { points, drops } = probesOf(predictor);
  const stages = stagesOf(predictor).filter((s) => s.meter && Object.keys(s.scene.hand).length === 0);
  const { nodeOf } = vehicles.network(vehicles.healthy, stages[0]?.scene ?? untouched);
  const isOwn = (terminal: string) => parts.some((p) => terminal.startsWith(`${p}.`));
  const nodes = new Set(
    [...circuit.attached.filter(([end]) => isOwn(end)).map(([, terminal]) => terminal), ...[...nodeOf.keys()].filter(isOwn)].map((t) =>
      nodeOf.get(t),
    ),
  );
  return [
    ...byHand,
    ...stages.flatMap((stage) => [
      ...points.filter((p) => nodes.has(p.node)).map((p) => pointReading(stage, p)),
      ...drops.filter(([a, b]) => isOwn(a.terminal) && isOwn(b.terminal)).map((d) => dropReading(stage, d)),
    ]),
  ];
}
