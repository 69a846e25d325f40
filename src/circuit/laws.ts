import type { Law } from './element.ts';

/**
 * A draw that is nearly constant once there is voltage, and nothing without: I·v / √(v² + knee²). Rises everywhere,
 * so a network that holds it has one solution. At 12 V and a knee of 0.3 V it is 0.03 % under I.
 *
 * @param ampere  the steady draw, > 0
 * @param knee_V  volts at which 71 % of it flows
 */
export function steadyDraw(ampere: number, knee_V = 0.3): Law {
  return (volts) => {
    const size = Math.hypot(volts, knee_V);
    return { ampere: (ampere * volts) / size, siemens: (ampere * knee_V * knee_V) / (size * size * size) + 1e-15 };
  };
}

/**
 * Filament: I = V/R with R rising from cold to hot as the voltage does, so that I ~ V^0.55 in the working range.
 * R(v) = R_hot · ((v/V_rated)² + c)^0.225, c such that R(0) is the cold resistance.
 *
 * @param watt    rated power, W
 * @param rated_V voltage of that power
 * @param coldShare  cold over hot resistance, 0.1 by the handbook
 * Sources: exponents 0.55 of current over voltage: en.wikipedia.org/wiki/Lamp_rerating (secondary);
 * cold 1/10 of hot: kfz-tech.de, Gluehlampe (secondary).
 */
export function filament(watt: number, rated_V: number, coldShare = 0.1): Law {
  const hot = (rated_V * rated_V) / watt;
  const half = 0.225;
  const floor = coldShare ** (1 / half);
  return (volts) => {
    const square = (volts / rated_V) ** 2;
    const ohm = hot * (square + floor) ** half;
    const ampere = volts / ohm;
    return { ampere, siemens: (1 - (2 * half * square) / (square + floor)) / ohm };
  };
}

/**
 * Junction: steep above its forward voltage, a leak of `leak_S` below. A logarithmically smoothed knee with the slope
 * of the bulk resistance, so that Newton needs no limiting: I = s·ln(1 + e^((v − v0)/s))/R + leak·v.
 *
 * @param forward_V  knee, about 0.6 V for silicon
 * @param bulk_ohm   slope beyond the knee
 */
export function junction(forward_V: number, bulk_ohm: number, leak_S = 1e-9, soft_V = 0.05): Law {
  return (volts) => {
    const x = (volts - forward_V) / soft_V;
    const softplus = x > 40 ? x : Math.log1p(Math.exp(x));
    const slope = x > 40 ? 1 : 1 / (1 + Math.exp(-x));
    return { ampere: (soft_V * softplus) / bulk_ohm + leak_S * volts, siemens: slope / bulk_ohm + leak_S };
  };
}
