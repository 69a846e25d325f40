import { diceOf } from './dice.ts';
import { type Target, targets } from './targets.ts';

/** No input may take longer, ms. */
export const patience_ms = 2000;

export type Tried = { readonly target: string; readonly text: string; readonly wrong?: string; readonly took_ms: number };

const wheel: readonly Target[] = targets.flatMap((target) => Array.from({ length: target.weight }, () => target));

/** Makes and tries one input: always the same one for a seed and a number. */
export function oneInput(seed: number, number: number, clock: () => number): Tried {
  const dice = diceOf(seed, number);
  const target = dice.pick(wheel);
  const text = target.made(dice);
  const began = clock();
  let wrong: string | undefined;
  try {
    wrong = target.tried(text, dice);
  } catch (e) {
    wrong = `threw ${e instanceof Error ? (e.stack ?? e.message).split('\n').slice(0, 6).join('\n') : String(e)}`;
  }
  const took_ms = clock() - began;
  return { target: target.name, text, took_ms, ...(wrong !== undefined && { wrong }) };
}
