import * as v from 'valibot';
import type { Dimension } from '../../circuit/parameter.ts';
import { quantityText, readQuantity } from '../../circuit/quantity.ts';

/** A quantity inside a parameter with a form of its own: from `450 mA` to 0.45. Refuses what the plain reader of quantities refuses, in its words. */
export function quantityForm(dimension: Dimension, min: number, max: number) {
  return v.pipe(
    v.string(),
    v.rawTransform(({ dataset, addIssue, NEVER }) => {
      const read = readQuantity(dataset.value, dimension);
      if (!read.ok) {
        addIssue({ message: read.why });
        return NEVER;
      }
      if (read.value >= min && read.value <= max) return read.value;
      addIssue({ message: `\`${dataset.value}\` is outside of ${quantityText(min, dimension)} to ${quantityText(max, dimension)}` });
      return NEVER;
    }),
  );
}
