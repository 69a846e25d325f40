import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Fault } from '../faults/fault.ts';
import { putOf } from '../faults/putOf.ts';
import { play } from '../play/play.ts';
import type { Step } from '../play/story.ts';
import { takenAt } from './taken.ts';

/** One tread of the staircase: the current from then on, and what fell asleep or let go there. */
export type Tread = {
  /** Seconds after the key came out. */
  readonly from_s: number;
  readonly amperes: number;
  readonly events: readonly { readonly part: string; readonly what: string }[];
};

export type Staircase = {
  readonly treads: readonly Tread[];
  /** Seconds until the last step down. */
  readonly asleepAfter_s: number;
  /** Something never comes to rest. */
  readonly chatters: readonly string[];
};

/** Seconds with the key at its running place before it is taken out: everything that wakes is awake (estimate). */
const before_s = 10;
/** Longest wait followed. Makers' texts (secondary): at rest after 20 to 75 min, some after 1 to 2 h. */
const most_s = 3 * 3600;
/** Changes closer together than this are one tread, s; a clamp's display shows no more. */
const together_s = 1;

/**
 * What a clamp on the battery cable shows after the key is taken out: the vehicle is played from its running position,
 * engine still, until three hours later.
 *
 * @returns undefined for a circuit without a key switch
 * Cost: one solve for each event.
 */
export function staircase(circuit: Circuit, faults: readonly Fault[] = []): Staircase | undefined {
  const lock = keySwitchOf(circuit);
  if (!lock) return undefined;
  const on = lock.model.positions.filter((p) => p.springsTo === undefined).reduce((a, b) => (b.angle > a.angle ? b : a));
  const story: readonly Step[] = [
    { does: { act: 'turn', to: { angle: on.angle, came: 'up', in: true }, slowly: false }, holds: before_s, text: on.name },
    { does: { act: 'key out' }, holds: most_s, text: 'key out' },
  ];
  const played = play(circuit, story, putOf(faults));
  const out_s = played.samples.filter((s) => s.key?.in !== false).at(-1)?.t ?? 0;
  const treads: { from_s: number; amperes: number; events: { part: string; what: string }[] }[] = [];
  for (const s of played.samples) {
    if (s.t < out_s || s.key?.in !== false) continue;
    const { amperes } = takenAt(s.at);
    const last = treads.at(-1);
    if (!last || s.t - out_s - last.from_s > together_s) treads.push({ from_s: s.t - out_s, amperes, events: [] });
    else last.amperes = amperes;
  }
  const merged = treads.filter((t, k) => k === 0 || isStep(treads[k - 1]!.amperes, t.amperes));
  for (const e of played.events) {
    const tread = merged.filter((t) => t.from_s <= e.t - out_s + 1e-6).at(-1);
    if (tread && e.part !== '' && e.t - out_s <= tread.from_s + together_s) tread.events.push({ part: e.part, what: e.what });
  }
  return { treads: merged, asleepAfter_s: merged.at(-1)?.from_s ?? 0, chatters: played.chatters?.parts ?? [] };
}

const isStep = (a: number, b: number): boolean => Math.abs(a - b) > Math.max(2e-4, 0.01 * Math.max(a, b));
