import type { Circuit } from '../circuit/circuit.ts';
import { ownerOf } from '../circuit/ownerOf.ts';
import type { Part } from '../circuit/part.ts';
import { openShare } from '../diagnose/costs.ts';
import type { Action } from './action.ts';

/** What an action costs: minutes of an experienced hand, and money for parts. */
export type Cost = { readonly minutes: number; readonly money: number };

/**
 * Money for a part by the letter of its family, where the part itself names no price. Trade guides, weak; estimates:
 * orders of magnitude for weighing tests, in any currency.
 */
export const prices: Readonly<Record<string, number>> = {
  F: 1,
  W: 5,
  X: 10,
  XE: 3,
  J: 5,
  K: 15,
  S: 60,
  G: 150,
  M: 150,
  T: 60,
  Y: 60,
  E: 8,
  H: 5,
  P: 60,
  A: 120,
  B: 40,
  R: 15,
  V: 5,
};
const otherPrice = 30;
/** Minutes besides the access: estimates, as for readings in a diagnosis. */
const besides = { wiggle: 2, swap: 5, bridge: 3, bench: 15, repair: 10, ohms: 1, clamp: 1, amps: 4 } as const;
const seat = { turn: 0.1, set: 0.1, look: 0.4, lookAll: 1, ask: 0.5, walk: 4 } as const;
/** Out of gear, wheels chocked, hands clear: before the first turn of the starter. */
export const chocks_min = 1;
/** A blown fuse of the meter or the jumper lead. */
export const fuse = { minutes: 2, money: 2 } as const;

export function priceOf(part: Part): number {
  return part.kind.access(part).price ?? prices[part.kind.letter] ?? otherPrice;
}

const reach = (circuit: Circuit, id: string, open: readonly string[]): number => {
  const part = circuit.parts.get(id);
  if (!part) return 0;
  const minutes = part.minutes ?? part.kind.access(part).minutes;
  return open.includes(id) ? minutes * openShare : minutes;
};

/** @param open parts that were reached before */
export function costOf(circuit: Circuit, action: Action, open: readonly string[]): Cost {
  const to = (...ids: readonly string[]) => Math.max(0, ...ids.map((id) => reach(circuit, id, open)));
  const minutes = (m: number, money = 0): Cost => ({ minutes: m, money });
  switch (action.do) {
    case 'turn':
      return minutes(action.slowly ? 3 * seat.turn : seat.turn);
    case 'set':
      return minutes(seat.set);
    case 'look':
      return minutes(action.load === undefined ? seat.lookAll : seat.look);
    case 'ask':
      return minutes(seat.ask);
    case 'walk':
      return minutes(seat.walk);
    case 'unplug':
    case 'refit':
      return minutes(to(action.part));
    case 'wiggle':
    case 'swap':
      return minutes(to(action.part) + besides[action.do]);
    case 'repair': {
      const part = circuit.parts.get(action.part);
      return minutes(to(action.part) + besides.repair, part ? priceOf(part) : 0);
    }
    case 'bridge':
      return minutes(to(...action.ends.map(ownerOf)) + besides.bridge);
    case 'volts':
    case 'lamp':
    case 'ohms': {
      const drop = action.black === 'ground' ? 0 : 1;
      return minutes(to(ownerOf(action.red), ownerOf(action.black)) + drop + (action.do === 'ohms' ? besides.ohms : 0));
    }
    case 'clamp':
    case 'amps':
      return minutes(to(circuit.parts.has(action.at) ? action.at : ownerOf(action.at)) + besides[action.do]);
    case 'bench':
      return minutes(to(action.part) + besides.bench);
    default:
      return minutes(0);
  }
}

/** Parts that an action lays open. */
export function opens(circuit: Circuit, action: Action): readonly string[] {
  const ids =
    'part' in action
      ? [action.part]
      : action.do === 'bridge'
        ? action.ends.map(ownerOf)
        : 'red' in action
          ? [ownerOf(action.red), ownerOf(action.black)]
          : 'at' in action
            ? [circuit.parts.has(action.at) ? action.at : ownerOf(action.at)]
            : [];
  return action.do === 'set' ? [] : ids.filter((id) => circuit.parts.has(id));
}
