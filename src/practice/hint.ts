import { sceneText } from '../circuit/scenePhrase.ts';
import type { Tool } from '../diagnose/candidates.ts';
import type { Predictor } from '../diagnose/predict.ts';
import type { HintStrength } from './action.ts';
import { placeOfReading } from './debrief.ts';
import { bestNext, type Insight } from './insight.ts';

/**
 * A hint from what the findings so far really imply, never from the answer: `ask` puts the question, `narrow` names the
 * scene and the part to go to, `show` the reading and what each outcome would leave.
 */
export function hintOf(predictor: Predictor, insight: Insight, tools: readonly Tool[], strength: HintStrength): string {
  const { circuit } = predictor;
  const next = bestNext(predictor, insight, tools, 1)[0];
  const count = insight.left;
  if (!next || count === 1) {
    const top = insight.suspects[0];
    const place = top?.faults.map((f) => f.mode.subject).join(' and ') ?? '';
    if (strength === 'ask')
      return 'Nothing within reach tells the rest apart. What have your findings left standing, and have you proved it?';
    if (strength === 'narrow')
      return `Your findings leave ${count === 1 ? 'one suspect' : `${count} suspects that no reading parts`}. Go through the path of the complaint once more: which piece explains every finding?`;
    return `Everything found so far is explained by ${place === '' ? 'a healthy vehicle' : place}. If a reading there has proved it, name it.`;
  }
  const { observable, scene } = next.candidate;
  const isLook = observable.of === 'load' || observable.of === 'engine';
  if (strength === 'ask') {
    if (isLook)
      return `${count} suspects are left, and a look costs less than a reading. In which place of the key have you not yet looked, and what shares a feed with what is dead?`;
    if (observable.of === 'volts')
      return `${count} suspects are left along the way of the current. Where would a reading halve them: what would you expect there if the fault lay before it, and what if behind?`;
    if (observable.of === 'touch') return `${count} suspects are left. Which of them would change its mind if you moved it?`;
    return `${count} suspects are left. Which test would come out otherwise for half of them?`;
  }
  const where =
    observable.of === 'volts' || observable.of === 'amperes'
      ? ownerName(circuit, observable.at)
      : 'part' in observable
        ? ownerName(circuit, `${observable.part}.`)
        : observable.of === 'load'
          ? ownerName(circuit, `${observable.load}.`)
          : 'the engine';
  if (strength === 'narrow')
    return `Go to ${where}, with the scene at ${sceneText(scene, circuit)}. ${isLook ? 'Look there.' : 'A reading there tells most for its minutes.'}`;
  // A reading is weighed for the likeliest only, and its outcomes are counted among these.
  const among = new Set(next.outcomes.flatMap((o) => [...o.shares.keys()].filter((k) => o.shares[k]! > 0))).size;
  const whom = among < count ? `the ${among} likeliest` : `${among}`;
  const outcomes = next.outcomes.slice(0, 4).map((o) => {
    const left = [...o.shares].filter((x) => x / o.probability >= 0.05).length;
    return `${o.seen}: ${left} of ${whom} left`;
  });
  return `${placeOfReading(next.candidate, circuit)}. ${outcomes.join('; ')}.`;
}

function ownerName(circuit: Predictor['circuit'], terminal: string): string {
  const id = terminal.slice(0, terminal.lastIndexOf('.'));
  const part = circuit.parts.get(id);
  return part ? `${part.name ?? part.kind.title} (${id}, ${part.place ?? part.kind.access(part).where})` : terminal;
}
