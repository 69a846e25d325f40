import type { Source } from '../../circuit/parameter.ts';
import type { FaultMode } from '../../circuit/part.ts';

/** Something fitted later or left plugged in that draws steadily, whatever the key does, while its feed is live. */
export function addedLoad(
  subject: string,
  words: string,
  text: string,
  ends: readonly [from: string, to: string],
  weight: number,
  source: Source,
): FaultMode {
  return {
    subject,
    words,
    // An alarm or a charger draws 20 to 60 mA, a tracker or an amplifier left on several hundred (from memory).
    detail: { dimension: 'current', default: 0.05, grades: [0.05, 0.5], min: 1e-4, max: 20, optional: false },
    text,
    weight,
    source,
    excludes: `${subject} ${words}`,
    changes: (ampere) => [{ do: 'draw', from: ends[0], to: ends[1], ampere }],
  };
}
