import type { Circuit } from '../src/circuit/circuit.ts';
import { type FunctionGroup, functionGroups } from '../src/report/functionGroups.ts';
import type { Layout } from '../src/report/layout/layout.ts';
import { layoutOf } from '../src/report/layout/layoutOf.ts';
import { partsAround } from '../src/report/partsAround.ts';
import { storyLoads } from '../src/report/storyLoads.ts';
import { fittedOf, narrowest, widest, widthAtOnce } from './firstSight.ts';

/** Only what belongs to these loads. */
export const onlyOf = (circuit: Circuit, loads: readonly string[]): Layout => fittedOf(circuit, partsAround(circuit, loads));

/** What the page offers for a circuit with more tracks than are seen at once. */
export function largeSeen(circuit: Circuit, whole: Layout): { readonly story?: Layout; readonly functions?: readonly FunctionGroup[] } {
  const story = storyOf(circuit, whole);
  const functions = functionGroups(
    circuit,
    whole.tracks.map((t) => t.load),
  );
  return { ...(story && { story }), ...(functions.length > 1 && { functions }) };
}

/** What the first sight of a large circuit shows; undefined when all of it fits, or when it has no engine. */
function storyOf(circuit: Circuit, whole: Layout): Layout | undefined {
  if (whole.width <= widthAtOnce) return undefined;
  const { first, more } = storyLoads(circuit);
  if (first.length === 0) return undefined;
  const drawn = (many: number, pitch = narrowest) =>
    layoutOf(circuit, { only: partsAround(circuit, [...first, ...more.slice(0, many)]), pitch });
  let [best, some, tooMany]: [Layout, number, number] = [drawn(0), 0, more.length + 1];
  if (best.width > widthAtOnce) return best.width < 0.8 * whole.width ? best : undefined;
  // The most loads whose tracks still fit, by halves: a drawing costs some 10 ms.
  while (tooMany - some > 1) {
    const many = Math.floor((some + tooMany) / 2);
    const layout = drawn(many);
    if (layout.width <= widthAtOnce) [best, some] = [layout, many];
    else tooMany = many;
  }
  const gutter = 84;
  const room = Math.floor((narrowest * (widthAtOnce - gutter)) / (best.width - gutter));
  return room > narrowest + 2 ? drawn(some, Math.min(widest, room)) : best;
}
