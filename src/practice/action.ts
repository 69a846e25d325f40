export type HintStrength = 'ask' | 'narrow' | 'show';

/** Everything that an apprentice can do. Plain data: a list of them and the exercise give the whole session again. */
export type Action =
  /** The key turned to an angle, degrees of key travel; `slowly` eases it there and watches. */
  | { readonly do: 'turn'; readonly angle: number; readonly slowly?: true }
  | { readonly do: 'release' }
  | { readonly do: 'key'; readonly is: 'in' | 'out' }
  | { readonly do: 'set'; readonly part: string; readonly setting: string }
  /** At one load; without one at everything that can be seen or heard now. */
  | { readonly do: 'look'; readonly load?: string }
  /** `history`, `engine`, or a load that a driver knows. */
  | { readonly do: 'ask'; readonly about: string }
  /** The whole position table, every load in every place. */
  | { readonly do: 'walk' }
  | { readonly do: 'unplug' | 'refit' | 'wiggle' | 'swap' | 'repair'; readonly part: string }
  | { readonly do: 'bridge'; readonly ends: readonly [string, string]; readonly fused: boolean }
  | { readonly do: 'unbridge' }
  | { readonly do: 'volts' | 'lamp' | 'ohms'; readonly red: string; readonly black: string }
  | { readonly do: 'clamp' | 'amps'; readonly at: string }
  /** Ohms of a part taken off the vehicle; `angle` where its key switch is turned to by hand. */
  | { readonly do: 'bench'; readonly part: string; readonly at: string; readonly to: string; readonly angle?: number }
  | { readonly do: 'jack'; readonly to: 'volts' | 'amperes' }
  | { readonly do: 'hint'; readonly strength: HintStrength }
  /** The end of the search: fault phrases; none = given up. */
  | { readonly do: 'name'; readonly faults: readonly string[] };

/** Done with an instrument on the vehicle or the part. */
export const isReading = (a: Action): boolean => ['volts', 'lamp', 'ohms', 'clamp', 'amps', 'bench'].includes(a.do);
/** Anything that may tell something: readings, looks, questions, tries. */
export const mayTell = (a: Action): boolean => isReading(a) || ['look', 'ask', 'walk', 'wiggle', 'swap'].includes(a.do);
