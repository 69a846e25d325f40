import { type Job, newJob } from '../../web/session/session.ts';
import type { Dice } from './dice.ts';
import { byBytes, nasty } from './mutated.ts';

const job: Job = {
  ...newJob('j1', '2026-11-25', { from: 'file', name: 'x.yaml', text: 'title: t\n' }),
  scene: {
    key: { angle: 30, came: 'up', in: true },
    hand: { S2: 'on' },
    engine: 'stopped',
    apart: ['X1'],
    bridged: [['S1.30', 'S1.15']],
    swapped: [],
  },
  faults: ['F3 blown'],
  beside: { scene: { hand: {}, engine: 'running', apart: [], bridged: [], swapped: ['S1'] }, faults: [] },
  notes: { vehicle: 'van', complaint: 'dies', history: ['heavy key ring'], findings: ['ON: T1 dead'], repair: [] },
  more: { cause: { tools: ['meter'] } },
};
const record = { id: 'j1', form: 1, revision: 3, saved: 1764000000000, job };

/** Anything that may stand where something else should. */
const strange = (dice: Dice): unknown =>
  dice.pick<() => unknown>([
    () => null,
    () => [],
    () => ({}),
    () => dice.roll(4e9),
    () => -1.5,
    () => true,
    () => dice.pick(nasty),
    () => [[[]]],
    () => ({ __proto__: null, constructor: 1 }),
    () => [dice.pick(nasty), 3],
  ])();

/** A kept job with some of its fields taken out, exchanged or put in at any depth; now and then with its bytes damaged. */
export function storedRecord(dice: Dice): string {
  const made = structuredClone(record) as unknown as Record<string, unknown>;
  for (let k = 1 + dice.roll(3); k > 0; k--) change(made, dice);
  const text = JSON.stringify(made);
  return dice.once(5) ? byBytes(text, dice) : text;
}

function change(held: Record<string, unknown>, dice: Dice): void {
  let at = held;
  for (let depth = dice.roll(4); depth > 0; depth--) {
    const deeper = Object.values(at).filter((x): x is Record<string, unknown> => typeof x === 'object' && x !== null);
    if (deeper.length === 0) break;
    at = dice.pick(deeper);
  }
  const key = dice.pick([...Object.keys(at), dice.once(4) ? '__proto__' : 'form']);
  if (dice.once(3)) delete at[key];
  else Object.defineProperty(at, key, { value: strange(dice), enumerable: true, configurable: true, writable: true });
}
