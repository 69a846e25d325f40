import type { Circuit } from '../circuit/circuit.ts';
import { keyText, sceneText } from '../circuit/scenePhrase.ts';
import type { Finding, Observable } from '../diagnose/finding.ts';
import { loadsAt } from '../solve/loads.ts';
import { network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { tableNeeds } from '../solve/tableNeeds.ts';
import { type Around, type Bench, changesNow } from './bench.ts';
import { theName } from './complaint.ts';
import { findingOf, isAmiss, type Noticed, noticeable, seenOf, told } from './noticed.ts';
import type { Came } from './update.ts';

/**
 * What can be seen or heard of the loads in this scene. What is off because nobody switched it on is not written down;
 * what is switched on and silent is.
 */
export function lookedAt({ hidden }: Around, bench: Bench, load: string | undefined): Came {
  const { circuit } = hidden;
  const { scene } = bench;
  if (load !== undefined && !circuit.parts.get(load)?.kind.judge)
    return { said: `${load} does not work or fail by itself: read it with an instrument.`, refused: true };
  const now = loadsAt(operatingPoint(network(circuit, changesNow(hidden, bench), scene), scene));
  const sound = new Map(loadsAt(operatingPoint(network(circuit, [], { ...scene, swapped: [] }), scene)).map((l) => [l.id, l.verdict]));
  const needs = tableNeeds(circuit);
  const isOn = (id: string) => Object.entries(needs.get(id) ?? {}).every(([part, setting]) => scene.hand[part] === setting);
  const shown = now.filter((l) => (load === undefined ? l.verdict !== 'dead' || sound.get(l.id) !== 'dead' || isOn(l.id) : l.id === load));
  const findings = shown.map((l): Finding => {
    const observable: Observable = { of: 'load', load: l.id };
    return findingOf(circuit, scene, observable, seenOf(observable, l.verdict === 'chatters' ? 'comes and goes' : l.verdict));
  });
  // By what they do, so that what is dark because it ought to be does not read like a list of faults.
  const words = [...new Set(shown.map((l) => l.verdict))]
    .sort((a, b) => order.indexOf(a) - order.indexOf(b))
    .map((verdict) => {
      const names = shown.filter((l) => l.verdict === verdict).map((l) => `${circuit.parts.get(l.id)?.name ?? l.id} (${l.id})`);
      return `${verdict}: ${names.join(', ')}`;
    });
  return {
    said: `${sceneText(scene, circuit)}: ${words.length === 0 ? 'nothing works, and nothing is switched on' : words.join('; ')}.`,
    findings,
  };
}

const order: readonly string[] = ['weak', 'chatters', 'works', 'dead'];

/** The customer's answer: only what a driver can know. */
export function answered({ hidden, predictor }: Around, about: string): Came {
  const { circuit, faults } = hidden;
  if (about === 'history') return { said: historyOf(hidden) };
  const all = noticeable(predictor, faults);
  const isAbout = (n: Noticed) =>
    about === 'engine' ? n.observable.of === 'engine' : n.observable.of === 'load' && n.observable.load === about;
  const list = all
    .filter((n) => isAbout(n) && n.scene.key?.came !== 'back')
    .concat(all.filter((n) => isAbout(n) && n.scene.key?.came === 'back' && n.observable.of === 'engine'));
  if (list.length === 0) return { said: `"I would not know about ${circuit.parts.get(about)?.name ?? about}."` };
  const who = about === 'engine' ? 'the engine' : theName(circuit, about);
  const words = list.map((n) => `${n.scene.key ? `${keyText(n.scene.key, circuit)}: ` : ''}${n.sometimes ? 'now this, now that' : n.word}`);
  return { said: `"${who[0]!.toUpperCase()}${who.slice(1)}? ${words.join('; ')}."`, findings: list.map((n) => told(circuit, n)) };
}

/** What was done or happened to the vehicle, by what its faults really are; true, and no more than a driver would say. */
function historyOf({ faults }: Around['hidden']): string {
  const changes = faults.flatMap((f) => f.mode.changes(f.detail));
  if (changes.some((c) => c.do === 'attach')) return '"Somebody worked on the wiring not long ago."';
  if (faults.some((f) => f.mode.sometimes)) return '"It has been coming and going for weeks."';
  if (changes.some((c) => c.do === 'bridge' && c.ohm > 0.5)) return '"It was washed, and it has stood in the rain."';
  return '"Nothing was done to it lately, that I know of."';
}

/** Two positions that spring back to one are one place: what is seen there is told once. */
function distinct(circuit: Circuit, list: readonly Noticed[]): readonly Noticed[] {
  return [...new Map(list.map((n) => [told(circuit, n).phrase, n])).values()];
}

/** Loads that work and are written down of a whole table. */
const mostWorking = 8;

/**
 * The whole position table, by eye and ear. Written down is everything that is amiss, the engine, and some loads where
 * they work: so the log stays readable, and what is weighed stays quick.
 */
export function walked({ hidden, predictor }: Around, bench: Bench): Came {
  const { apart, bridged } = bench.scene;
  if (apart.length > 0) return { said: `The whole table is run with everything in: ${apart.join(', ')} is still out.`, refused: true };
  if (bridged.length > 0) return { said: 'The whole table is run without a jumper: it is still on.', refused: true };
  const { circuit } = hidden;
  const left = hidden.faults.filter((f) => !bench.scene.swapped.includes(f.part));
  const all = distinct(circuit, noticeable(predictor, left));
  const amiss = all.filter(isAmiss);
  const working = new Map<string, Noticed>();
  for (const n of all) if (!isAmiss(n) && n.observable.of === 'load' && n.word === 'works') working.set(n.observable.load, n);
  const engine = all.filter((n) => n.observable.of === 'engine' && !isAmiss(n));
  const list = [...amiss, ...engine, ...[...working.values()].slice(0, mostWorking)];
  const findings = list.map((n) => told(circuit, { ...n, scene: { ...n.scene, swapped: bench.scene.swapped } }));
  const said =
    amiss.length === 0
      ? 'The whole table: everything is as it ought to be.'
      : `The whole table: ${amiss.map((n) => told(circuit, n).phrase).join('; ')}. Everything else is as it ought to be.`;
  return { said, findings };
}
