import type { Circuit } from '../circuit/circuit.ts';
import { isPulled } from '../circuit/handPhrase.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { sceneText } from '../circuit/scenePhrase.ts';
import type { Candidate } from '../diagnose/candidates.ts';
import type { Observable } from '../diagnose/finding.ts';
import { duringText } from '../diagnose/findingText.ts';
import { sceneLine } from './sceneLine.ts';

/** A part as people call it: `E1 (Brake lamp left)`. */
export function calledBy(id: string, circuit: Circuit): string {
  const part = circuit.parts.get(id);
  return part?.name === undefined ? id : `${id} (${part.name})`;
}

/** What is read, in a few words: `volts from S1.30 to S1.15`, `T1 (Ignition coil) works or not`. */
export function readingName(observable: Observable, circuit: Circuit): string {
  switch (observable.of) {
    case 'load':
      return `look whether ${calledBy(observable.load, circuit)} works${duringText(observable.during)}`;
    case 'engine':
      return 'see what the engine does';
    case 'volts':
      return `volts ${observable.to === 'ground' ? `at ${observable.at}` : `from ${observable.at} to ${observable.to}`}${duringText(observable.during)}`;
    case 'amperes':
      return `current ${wireEnd(observable.at, circuit) ?? `at ${observable.at}`}`;
    case 'ohms':
      return `ohms of ${observable.part} off the vehicle, ${observable.at} to ${observable.to}${turned(observable, circuit)}`;
    case 'exchange':
      return `${observable.how === 'replaced' ? 'replace' : 'plug in a known good'} ${calledBy(observable.part, circuit)}`;
    case 'touch':
      return `move ${calledBy(observable.part, circuit)} and its plug by hand, watching`;
  }
}

/** The scene of a reading as findings write it; a part on the bench has none. */
export const readingScene = ({ scene, observable }: Candidate, circuit: Circuit): string =>
  observable.of === 'ohms' ? 'off the vehicle' : sceneText(scene, circuit);

/** Where the leads go, where the key stands, what is switched on: one step a line. */
export function readingSteps({ scene, observable, renews = [] }: Candidate, circuit: Circuit): readonly string[] {
  const set = sceneLine(circuit, { ...scene, bridged: [], apart: [] });
  const off = [
    ...scene.apart.map((id) => `With the key off, ${isPulled(id, circuit) ? 'pull' : 'unplug'} ${calledBy(id, circuit)}.`),
    ...renews.map((id) => `Put a new ${calledBy(id, circuit)} in, or a test lamp in its place: what is suspected blows it.`),
  ];
  const jumper = scene.bridged.map(([a, b]) => `Bridge ${a} and ${b} with a fused jumper lead.`);
  switch (observable.of) {
    case 'load':
      return [
        ...off,
        ...jumper,
        set,
        observable.during
          ? `Wait until ${calledBy(observable.during.load, circuit)} is ${observable.during.word}, and look at ${calledBy(observable.load, circuit)} then.`
          : `Look at ${calledBy(observable.load, circuit)}.`,
      ];
    case 'engine':
      return [...off, set, 'See what the engine does.'];
    case 'volts': {
      const black = observable.to === 'ground' ? 'on clean body metal' : `on ${observable.to}`;
      const tool = observable.instrument === 'meter' ? 'Voltmeter' : 'Filament test lamp';
      return [
        ...off,
        `${tool}: red lead on ${observable.at}${whereIs(observable.at, circuit)}, black lead ${black}, ${off.length > 0 ? 'all other ' : ''}plugs left on.`,
        ...jumper,
        set,
        ...(observable.during
          ? [`Wait until ${calledBy(observable.during.load, circuit)} is ${observable.during.word}, and read then.`]
          : []),
      ];
    }
    case 'amperes': {
      const wire = wireEnd(observable.at, circuit);
      const around = wire ? `Clamp ${wire}` : `Clamp round all wires at ${observable.at}`;
      return [...off, `${observable.instrument === 'clamp' ? around : `Ammeter in line at ${observable.at}`}.`, set];
    }
    case 'ohms':
      return [
        `Take ${calledBy(observable.part, circuit)} off the vehicle.`,
        `Ohmmeter on ${observable.at} and ${observable.to}, leads shorted first and subtracted.`,
        ...(observable.angle === undefined ? [] : [`Turn the switch itself by hand${turned(observable, circuit)}, without the lock.`]),
      ];
    case 'exchange':
      return [
        `Plug a known good ${calledBy(observable.part, circuit)} in without fitting it.`,
        'Try again what failed; then put the old one back.',
      ];
    case 'touch':
      return [
        'Set up what fails, key and switches as told.',
        `Move ${calledBy(observable.part, circuit)}, its plug and each wire at it, one at a time.`,
      ];
  }
}

function whereIs(terminal: string, circuit: Circuit): string {
  const part = circuit.parts.get(terminal.slice(0, terminal.lastIndexOf('.')));
  if (!part) return '';
  const where = part.place ?? part.kind.access(part).where;
  return ` (${part.name ? `${part.name}, ` : ''}${where})`;
}

function turned({ angle, setting }: Observable & { of: 'ohms' }, circuit: Circuit): string {
  if (angle === undefined) return setting === undefined ? '' : ` at ${setting}`;
  const lock = keySwitchOf(circuit);
  const place = lock && keyStretches(lock.model).find((s) => s.angle === angle);
  return ` at ${place?.name ?? `${angle}°`}`;
}

/** `round wire W12a, near E5.2`; undefined for a terminal of something else. */
function wireEnd(at: string, circuit: Circuit): string | undefined {
  const id = at.slice(0, at.lastIndexOf('.'));
  if (circuit.parts.get(id)?.kind.isWire !== true) return undefined;
  const there = circuit.attached.find(([end]) => end === at)?.[1];
  return `round wire ${id} alone${there === undefined ? '' : `, near ${there}`}`;
}
