import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Dimension } from '../circuit/parameter.ts';
import { quantityText } from '../circuit/quantity.ts';
import { restScene, sceneText } from '../circuit/scenePhrase.ts';
import type { During, Finding, Observable, Seen } from './finding.ts';
import { sceneSaid } from './handAssumed.ts';

/** The scene of a part that lies on the bench. */
export const offVehicle = 'off the vehicle';

/** Up to here a meter's fused range carries the current, and it is put in line; above, a clamp goes round. Common practice, no source. */
const lineMost_A = 10;

/** With what a current of this size is read unless somebody says otherwise. */
export const usualFor = (ampere: number) => (Math.abs(ampere) < lineMost_A ? 'ammeter' : 'clamp');

/** The canonical phrase of a finding; it reads back as the same finding. */
export function findingText({ scene, observable, seen }: Pick<Finding, 'scene' | 'observable' | 'seen'>, circuit: Circuit): string {
  const what = seenText(observable, seen, circuit);
  if (observable.of === 'ohms') return `${offVehicle}: ${what}`;
  const bare = sceneText(scene, circuit) === sceneText(restScene(circuit), circuit);
  if (observable.of !== 'exchange' && observable.of !== 'touch')
    return `${sceneText(sceneSaid({ scene, observable, seen }, circuit), circuit)}: ${what}`;
  return `${bare ? '' : `${sceneText(scene, circuit)}, `}${observable.how} ${observable.part}: ${what}`;
}

/** What was seen, without the scene: `T1 dead`, `0.4 V at S1.15`. */
export function seenText(observable: Observable, seen: Seen, circuit: Circuit): string {
  const figure = (dimension: Dimension) =>
    'value' in seen ? (seen.value === Number.POSITIVE_INFINITY ? 'open' : quantityText(seen.value, dimension, 12)) : '';
  switch (observable.of) {
    case 'load':
      return `${observable.load} ${'word' in seen ? seen.word : ''}${duringText(observable.during)}`;
    case 'engine':
      return `engine ${'engine' in seen ? seen.engine : ''}`;
    case 'volts': {
      const where = observable.to === 'ground' ? `at ${observable.at}` : `from ${observable.at} to ${observable.to}`;
      const by = observable.instrument === 'meter' ? '' : ` with ${observable.instrument}`;
      return `${figure('voltage')} ${where}${by}${duringText(observable.during)}`;
    }
    case 'amperes': {
      const usual = 'value' in seen && usualFor(seen.value) === observable.instrument;
      const by = usual ? '' : ` with ${observable.instrument}`;
      return `${figure('current')} at ${observable.at}${by}${duringText(observable.during)}`;
    }
    case 'ohms': {
      const stand =
        observable.angle !== undefined
          ? ` at ${switchPlace(observable.angle, circuit)}`
          : observable.setting !== undefined
            ? ` at ${observable.setting}`
            : '';
      return `${observable.at} to ${observable.to}${stand} ${figure('resistance')}`;
    }
    default:
      return 'outcome' in seen ? seen.outcome : '';
  }
}

/** ` while B1 dead`; nothing where nobody watched a load meanwhile. */
export const duringText = (during: During | undefined): string => (during ? ` while ${during.load} ${during.word}` : '');

/** Name of a place of the switch itself, degrees of switch travel. */
function switchPlace(angle: number, circuit: Circuit): string {
  const lock = keySwitchOf(circuit);
  const place = lock === undefined ? undefined : keyStretches(lock.model).find((s) => s.angle === angle);
  return place?.name ?? `${angle}°`;
}
