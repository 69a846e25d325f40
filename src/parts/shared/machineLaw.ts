import type { Law } from '../../circuit/element.ts';

/** Width over which the regulator takes over, V. */
const bend_V = 0.03;

/**
 * A regulated machine behind rectifier diodes: it gives its most until the volts come near the regulated ones, then
 * less, and nothing above; it never takes current back. Written as the current that flows INTO its plus terminal, so
 * it is negative while it gives, and rises everywhere.
 *
 * @param regulated_V volts with nothing drawing
 * @param most_A      > 0
 * @param droop_V     fall from nothing to most, > 0; regulators hold a few tenths of a volt (estimate)
 */
export function regulatedMachine(regulated_V: number, most_A: number, droop_V: number): Law {
  const perVolt = most_A / droop_V;
  const softplus = (x: number) => (x > 40 ? x : Math.log1p(Math.exp(x)));
  const slope = (x: number) => 1 / (1 + Math.exp(-x));
  return (volts) => {
    const [short, over] = [(regulated_V - volts) / bend_V, (regulated_V - droop_V - volts) / bend_V];
    return {
      ampere: perVolt * bend_V * (softplus(over) - softplus(short)) + 1e-9 * volts,
      siemens: perVolt * (slope(short) - slope(over)) + 1e-9,
    };
  };
}

/** The same machine while it gives nothing: its diodes or its cut-out block. */
export function blocked(volts: number): { readonly ampere: number; readonly siemens: number } {
  return { ampere: 1e-9 * volts, siemens: 1e-9 };
}
