import type { Element, Law, Reading } from '../../circuit/element.ts';
import type { Judged, Part, Pole } from '../../circuit/part.ts';
import type { Condition } from '../../circuit/scene.ts';
import { judgedByLaw } from './lawVerdict.ts';
import { oneAndTwo } from './terminals.ts';

type Limited = { readonly at: number; readonly 'weak-below': number; readonly 'dead-below': number };

/** How a load with two terminals takes its current. */
export type LoadModel<P> = {
  readonly symbol: string;
  /** The healthy load from 1 to 2; one kind of part must always give a law, or always a plain resistance. */
  readonly takes: (params: P, at: Condition) => Law | number;
  readonly label?: (params: P) => string;
};

/**
 * What every load with terminals 1 and 2 has in common: one element, one pole, and a verdict by its own volts.
 * Spread into the part's kind; what differs is written after it.
 */
export function oneTwoLoad<P extends Limited>(model: LoadModel<P>) {
  const lawOf = (part: Part<P>, at: Condition): Law => {
    const takes = model.takes(part.params, at);
    return typeof takes === 'number' ? (volts) => ({ ampere: volts / takes, siemens: 1 / takes }) : takes;
  };
  return {
    load: true as const,
    terminals: () => oneAndTwo,
    elements: (part: Part<P>, at: Condition): readonly Element[] => {
      const takes = model.takes(part.params, at);
      return [typeof takes === 'number' ? { id: '', from: '1', to: '2', ohm: takes } : { id: '', from: '1', to: '2', law: takes }];
    },
    judge: (part: Part<P>, at: Condition, read: Reading): Judged =>
      judgedByLaw(
        lawOf(part, at),
        read.across('1', '2'),
        read.amperes(''),
        part.params.at,
        part.params['weak-below'],
        part.params['dead-below'],
      ),
    loadEnds: (): readonly [string, string] => ['1', '2'],
    poles: (part: Part<P>): readonly Pole[] => {
      const label = model.label?.(part.params);
      return [{ id: '', from: '1', to: '2', symbol: model.symbol, ...(label !== undefined && { label }) }];
    },
  };
}
