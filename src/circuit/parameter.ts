import type { GenericSchema } from 'valibot';

/** What a quantity measures; `src/circuit/quantity.ts` reads each with the units of that dimension only. */
export type Dimension =
  | 'voltage' // V
  | 'current' // A
  | 'resistance' // Ω
  | 'power' // W
  | 'charge' // Ah
  | 'area' // mm², also read from AWG
  | 'length' // m
  | 'angle' // degrees
  | 'temperature' // °C
  | 'time' // s
  | 'share' // 0..1, written in %
  | 'rotation'; // 1/min

/** How a parameter's default is known; shown by `detent parts KIND`. `common practice, no source`, `estimate`, `from memory` or a title with page. */
export type Source = string;

type Common = { readonly about: string; readonly source?: Source };

/** One parameter of a kind of part, as written in a circuit file. Numbers are held in the unit named beside each Dimension. */
export type Parameter =
  | (Common & {
      readonly as: 'quantity';
      readonly dimension: Dimension;
      readonly default?: number;
      /** Taken where a file says `unknown`: a stated guess, where leaving it out means something else. Else it is the default. */
      readonly unknown?: number;
      readonly required?: true;
      readonly min?: number;
      readonly max?: number;
    })
  | (Common & { readonly as: 'count'; readonly default?: number; readonly required?: true; readonly min?: number; readonly max?: number })
  | (Common & { readonly as: 'word'; readonly words: readonly string[]; readonly default?: string; readonly required?: true })
  | (Common & { readonly as: 'flag'; readonly default: boolean }) // written yes / no
  | (Common & { readonly as: 'text'; readonly default?: string; readonly required?: true })
  // Anything with a form of its own (positions, contacts, pins): a valibot schema from the written form to the held form.
  | (Common & {
      readonly as: 'form';
      readonly schema: GenericSchema<unknown, unknown>;
      readonly default?: unknown;
      readonly required?: true;
      readonly written: string;
    });

export type Parameters = { readonly [name: string]: Parameter };

type Known<Q, T> = Q extends { readonly required: true } ? T : Q extends { readonly default: unknown } ? T : T | undefined;
type Held<Q> = Q extends { readonly as: 'quantity' | 'count' }
  ? Known<Q, number>
  : Q extends { readonly as: 'word'; readonly words: readonly (infer W)[] }
    ? Known<Q, W>
    : Q extends { readonly as: 'flag' }
      ? boolean
      : Q extends { readonly as: 'text' }
        ? Known<Q, string>
        : Q extends { readonly as: 'form'; readonly schema: GenericSchema<unknown, infer T> }
          ? Known<Q, T>
          : never;
/** What a part of a kind holds, once read: `{ rating: number, form: 'blade' | … }`. */
export type Params<P extends Parameters> = { readonly [K in keyof P]: Held<P[K]> };
