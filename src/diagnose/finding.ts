import type { Scene } from '../circuit/scene.ts';

/** Words for what a person saw a load do. `hot` and `not tried` carry no verdict. */
export type SeenWord = 'works' | 'weak' | 'dead' | 'comes and goes' | 'hot' | 'not tried';
export type EngineWord = 'cranks' | 'cranks slowly' | 'fires' | 'runs' | 'dies' | 'still';

/** With what a value was read; each loads the circuit as the real one does. */
export type Instrument = 'meter' | 'test lamp' | 'clamp' | 'ammeter' | 'ohmmeter';

/** How a load was at the very moment of a reading: for what comes and goes, which is read while it is gone. */
export type During = { readonly load: string; readonly word: (typeof duringWords)[number] };
export const duringWords = ['works', 'weak', 'dead'] as const;

/** What can be looked at or read in a scene; the question that the solver answers for every suspect. */
export type Observable =
  | { readonly of: 'load'; readonly load: string; readonly during?: During }
  | { readonly of: 'engine' }
  /** Red lead on `at`, black lead on `to` (`ground` unless said). */
  | {
      readonly of: 'volts';
      readonly at: string;
      readonly to: string;
      readonly instrument: 'meter' | 'test lamp';
      readonly during?: During;
    }
  /** Current that flows from the wiring into a part's terminal, as a clamp round all wires there or an ammeter in line reads it; its size, without sign. */
  | { readonly of: 'amperes'; readonly at: string; readonly instrument: 'clamp' | 'ammeter'; readonly during?: During }
  /** Ohms between two terminals of a part taken off the vehicle; `angle` where a key switch is turned to by hand, degrees of switch travel. */
  | {
      readonly of: 'ohms';
      readonly part: string;
      readonly at: string;
      readonly to: string;
      readonly angle?: number;
      readonly setting?: string;
    }
  /** The part was exchanged: for good (`replaced`) or for a try (`swapped`). */
  | { readonly of: 'exchange'; readonly part: string; readonly how: 'replaced' | 'swapped' }
  /** The part or plug was moved, heated or knocked while watching. */
  | { readonly of: 'touch'; readonly part: string; readonly how: 'wiggled' | 'heated' | 'tapped' };

/** What was seen of it. */
export type Seen =
  | { readonly word: SeenWord }
  | { readonly engine: EngineWord }
  /** V, A or Ω by the observable; `Infinity` Ω = open. */
  | { readonly value: number }
  /** Of an exchange or a touch. */
  | { readonly outcome: 'no change' | 'cured' | 'changes' };

/** One thing noticed or read, with the scene in which it was so. */
export type Finding = {
  readonly scene: Scene;
  readonly observable: Observable;
  readonly seen: Seen;
  /** Canonical phrase: `ON after START: T1 dead`. */
  readonly phrase: string;
};
