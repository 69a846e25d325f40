import { stepEdits } from '../../src/circuit/edit/steps.ts';
import { edited } from '../../src/circuit/edit/textEdit.ts';
import { quantityText } from '../../src/circuit/quantity.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { fitReadings } from '../../src/report/circuitEdit/fitReadings.ts';
import { fitted } from '../../src/solve/fit.ts';
import type { FitCalls } from './fitCalls.ts';

function fit({ text, phrases }: FitCalls['fit']['takes']): FitCalls['fit']['gives'] {
  const read = readCircuit(text, 'circuit', partKinds);
  if (!read.ok) return { problems: read.problems };
  const { readings, problems } = fitReadings(phrases, read.value, 'reading');
  if (problems.length > 0) return { problems };
  const result = fitted(read.value, readings);
  let now = text;
  for (const { part, parameter, dimension, before, after } of result.figures)
    if (after !== before)
      now = edited(now, stepEdits(now, { do: 'set', id: part, key: parameter, held: quantityText(after, dimension) }) ?? []);
  const { figures, readings: seen, disagree } = result;
  return { problems: [], text: now, figures, readings: seen, disagree };
}

type Asking = { readonly id: number; readonly takes: FitCalls['fit']['takes'] };
// The DOM library types `self` as a window; this is the only line that must know better.
const port = self as unknown as { onmessage: (e: MessageEvent<Asking>) => void; postMessage: (a: unknown) => void };
port.onmessage = ({ data: { id, takes } }) => {
  try {
    port.postMessage({ id, ok: true, gives: fit(takes) });
  } catch (e) {
    port.postMessage({ id, ok: false, message: e instanceof Error ? e.message : String(e) });
  }
};
