import type { Circuit } from '../circuit/circuit.ts';
import type { Scene } from '../circuit/scene.ts';
import { sceneText } from '../circuit/scenePhrase.ts';
import type { Observable } from '../diagnose/finding.ts';
import { offVehicle, seenText } from '../diagnose/findingText.ts';
import type { Prediction } from '../diagnose/predict.ts';

/** What is read where, in the words of a finding with the figure left out. */
export function readingPhrase({ scene, observable }: { readonly scene: Scene; readonly observable: Observable }, circuit: Circuit): string {
  const where = sceneText(scene, circuit);
  switch (observable.of) {
    case 'load':
      return `${where}: ${observable.load} works or not`;
    case 'volts':
      return `${where}: … mV from ${observable.at} to ${observable.to}`;
    case 'amperes':
      return `${where}: … mA at ${observable.at}`;
    case 'ohms':
      return `${offVehicle}: ${seenText(observable, { outcome: 'no change' }, circuit).trim()}`;
    default:
      return where;
  }
}

/** A prediction as an instrument shows it: 0.1 mV over a fuse, 1 mA at a cable. */
export function expectText(is: Prediction): string {
  switch (is.of) {
    case 'load':
      return is.verdict;
    case 'volts':
      // Both leads on one fuse read nothing where nothing flows, however it hangs.
      if (is.volt === null) return is.shunt ? '0.0 mV' : 'tied to nothing';
      return Math.abs(is.volt) < 0.2 ? `${(1000 * Math.abs(is.volt)).toFixed(1)} mV` : `${is.volt.toFixed(1)} V`;
    case 'amperes':
      return ampereText(is.ampere);
    case 'ohms':
      return is.ohm > 1e6 ? 'open' : `${Number(is.ohm.toPrecision(2))} Ω`;
    default:
      return '';
  }
}

/** Amperes as a clamp or a meter in line shows them. */
export const ampereText = (ampere: number): string =>
  ampere < 0.01
    ? `${(1000 * ampere).toFixed(1)} mA`
    : ampere < 1
      ? `${Math.round(1000 * ampere)} mA`
      : `${ampere.toFixed(ampere < 10 ? 2 : 1)} A`;

/** V, A or Ω of a prediction; null where a point is tied to nothing. */
export const predictedValue = (is: Prediction): number | null | undefined =>
  is.of === 'volts' ? is.volt : is.of === 'amperes' ? is.ampere : is.of === 'ohms' ? is.ohm : undefined;
