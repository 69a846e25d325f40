/**
 * The pieces that a part is made of for the solver. `from`, `to`, `plus`, `minus` are terminals of the same part
 * (`'15'`), inner nodes of the part (they begin with `~`), or the two common nodes `ground` (the body) and `block`
 * (the engine block, which only a strap or a ground point joins to the body).
 *
 * A part must give the same list, same ids and ends in the same order, in every condition: an open contact is a
 * resistance of `Infinity`, never a missing element. That keeps the pattern of the network, which is analysed once.
 */
export type Element =
  /** ohm > 0; `Infinity` = open; 0 = an ideal joint, which must then be 0 in every condition. */
  | { readonly id: string; readonly from: string; readonly to: string; readonly ohm: number }
  /** Voltage source, current positive out of `plus`. ohm 0 = exact: it joins two nodes with an offset. */
  | { readonly id: string; readonly plus: string; readonly minus: string; readonly volt: number; readonly ohm: number }
  /** Ideal current pushed into one node and taken out of the other. */
  | { readonly id: string; readonly into: string; readonly outOf: string; readonly ampere: number }
  /** Current that depends on the own voltage, from `from` to `to`. The law must rise everywhere (siemens > 0): then one solution exists. */
  | { readonly id: string; readonly from: string; readonly to: string; readonly law: Law };

/** Current in A at a voltage in V, and its slope in S (> 0). Continuous, smooth enough for Newton. */
export type Law = (volts: number) => { readonly ampere: number; readonly siemens: number };

/** What a part may ask of a solved instant. */
export type Reading = {
  /** Volts between two of its own terminals or inner nodes (first minus second); 0 when either is tied to nothing. */
  readonly across: (first: string, second: string) => number;
  /** Amperes through one of its elements: from -> to, or out of plus. */
  readonly amperes: (element: string) => number;
};
