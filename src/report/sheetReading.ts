import type { Circuit } from '../circuit/circuit.ts';
import { quantityText } from '../circuit/quantity.ts';
import type { Finding } from '../diagnose/finding.ts';
import { amperesTolerance, ohmsTolerance, voltsTolerance } from '../diagnose/likelihood.ts';
import type { Prediction } from '../diagnose/predict.ts';

/** What was read or seen, alone: `0.04 V`, `open`, `cured`. */
export function seenValue({ observable, seen }: Finding, _circuit: Circuit): string {
  if ('value' in seen) {
    if (seen.value === Number.POSITIVE_INFINITY) return 'open';
    const dimension = observable.of === 'volts' ? 'voltage' : observable.of === 'amperes' ? 'current' : 'resistance';
    return quantityText(seen.value, dimension, 4);
  }
  return 'outcome' in seen ? seen.outcome : 'word' in seen ? seen.word : seen.engine;
}

/** What a reading says beside what the sound vehicle would give. */
export function readTells({ seen, observable }: Finding, sound: Prediction | undefined, proves: boolean): string {
  const proof = proves ? ': proof' : '';
  if ('outcome' in seen) {
    const told =
      observable.of === 'touch'
        ? { cured: 'it sits here', changes: 'it sits here', 'no change': 'nothing loose found here' }
        : { cured: 'the fault was in this part', changes: 'this part has to do with it', 'no change': 'this part is cleared' };
    return `${told[seen.outcome]}${proof}`;
  }
  if (!('value' in seen) || sound === undefined) return proves ? 'proof' : '';
  return `${isGood(seen.value, sound) ? 'as it should be' : 'not as it should be'}${proof}`;
}

function isGood(value: number, sound: Prediction): boolean {
  switch (sound.of) {
    case 'volts':
      return Math.abs(value - (sound.volt ?? 0)) <= voltsTolerance(sound.volt ?? 0, sound.wide);
    case 'amperes':
      return Math.abs(Math.abs(value) - Math.abs(sound.ampere)) <= amperesTolerance(sound.ampere);
    case 'ohms':
      return value > 1e6 || sound.ohm > 1e6 ? value > 1e6 === sound.ohm > 1e6 : Math.abs(value - sound.ohm) <= ohmsTolerance(sound.ohm);
    default:
      return true;
  }
}
