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
    // Not Math.hypot, here and below: it guards against overflow that no voltage reaches, and takes ten times as long.
    const size = Math.sqrt(volts * volts + knee_V * knee_V);
    return { ampere: (ampere * volts) / size, siemens: (ampere * knee_V * knee_V) / (size * size * size) + 1e-15 };
  };
}

/**
 * Filament: I ~ V^0.55 in the working range, a plain resistance when cold.
 *
 * @param watt    rated power, W
 * @param rated_V voltage of that power
 * @param coldShare  cold over hot resistance, 0.1 by the handbook
 * Sources: exponents 0.55 of current over voltage: en.wikipedia.org/wiki/Lamp_rerating (secondary);
 * cold 1/10 of hot: kfz-tech.de, Gluehlampe (secondary).
 */
export function filament(watt: number, rated_V: number, coldShare = 0.1): Law {
  return selfHeating(watt, rated_V, coldShare, 0.55);
}

/**
 * A conductor whose own heat raises its resistance: filament, glow plug, PTC heater. I ~ V^power once it is warm,
 * R(v) ~ ((v/V_rated)² + c)^((1 − power)/2), c such that R(0) is the cold resistance, and exactly `watt` at the rated voltage.
 *
 * @param coldShare cold over hot resistance, 0 < share < 1
 * @param power     exponent of current over voltage, 0 < power < 1; 1 would be a plain resistance
 */
export function selfHeating(watt: number, rated_V: number, coldShare: number, power: number): Law {
  const half = (1 - power) / 2;
  const floor = ratioToFloor(coldShare ** (1 / half));
  const hot = (rated_V * rated_V) / watt / (1 + floor) ** half;
  return (volts) => {
    const square = (volts / rated_V) ** 2;
    const ohm = hot * (square + floor) ** half;
    return { ampere: volts / ohm, siemens: (1 - (2 * half * square) / (square + floor)) / ohm };
  };
}

/** c for which c / (1 + c) is the given ratio: cold over hot, both of the same formula. */
function ratioToFloor(ratio: number): number {
  return ratio / (1 - ratio);
}

/**
 * Motor at the speed that its voltage gives it: the back-EMF leaves it a current that grows little with voltage once
 * it turns, and below that only the resistance of the winding counts. I/I₀ = g·v + b·v/√(v² + k²) with v = V/V₀: slope 1/stall
 * current at standstill, exactly I₀ at the rated voltage, odd, and rising everywhere.
 *
 * @param ampere     running current at the rated voltage, A
 * @param rated_V    voltage of that current
 * @param stallShare current with the rotor held over running current, > 1
 * @param growth     how much of the running current grows with voltage: 0.2 constant torque (pump, wiper), 0.8 fan
 */
export function running(ampere: number, rated_V: number, stallShare: number, growth: number): Law {
  // k follows from the slope at standstill, growth + b/k = stallShare, and b from the rated point; two rounds settle both to 1e-6.
  let b = 1 - growth;
  let k = b / (stallShare - growth);
  for (let round = 0; round < 4; round++) {
    b = (1 - growth) * Math.hypot(1, k);
    k = b / (stallShare - growth);
  }
  return (volts) => {
    const v = volts / rated_V;
    const size = Math.sqrt(v * v + k * k);
    const scale = ampere / rated_V;
    return { ampere: ampere * (growth * v + (b * v) / size), siemens: scale * (growth + (b * k * k) / (size * size * size)) };
  };
}

/** Plain resistance as a law, for a part that is one in some states. */
export function resistive(ohm: number): Law {
  return (volts) => ({ ampere: volts / ohm, siemens: 1 / ohm });
}

/** Two laws shared out: all of `first` at share 0, all of `second` at 1. Between two rising laws it rises. */
export function blend(first: Law, second: Law, share: number): Law {
  if (share <= 0) return first;
  if (share >= 1) return second;
  return (volts) => {
    const [a, b] = [first(volts), second(volts)];
    return { ampere: (1 - share) * a.ampere + share * b.ampere, siemens: (1 - share) * a.siemens + share * b.siemens };
  };
}

/**
 * Breakdown in reverse as well as conduction forwards: a Zener, from anode to cathode.
 *
 * @param zener_V  volts cathode over anode at which it begins to carry
 */
export function zenerJunction(forward_V: number, zener_V: number, bulk_ohm: number): Law {
  const ahead = junction(forward_V, bulk_ohm);
  const back = junction(zener_V, bulk_ohm);
  return (volts) => {
    const [a, b] = [ahead(volts), back(-volts)];
    return { ampere: a.ampere - b.ampere, siemens: a.siemens + b.siemens };
  };
}

/**
 * Junction: steep above its forward voltage, a leak of `leak_S` below. A logarithmically smoothed knee with the slope
 * of the bulk resistance, so that Newton needs no limiting: I = s·(ln(1 + e^((v − v0)/s)) − ln(1 + e^(−v0/s)))/R + leak·v.
 * The second logarithm makes it carry nothing at 0 V: without it a loose diode would push microamperes by itself.
 *
 * @param forward_V  knee, about 0.6 V for silicon
 * @param bulk_ohm   slope beyond the knee
 */
export function junction(forward_V: number, bulk_ohm: number, leak_S = 1e-9, soft_V = 0.05): Law {
  const atRest = Math.log1p(Math.exp(-forward_V / soft_V));
  return (volts) => {
    const x = (volts - forward_V) / soft_V;
    const softplus = x > 40 ? x : Math.log1p(Math.exp(x));
    const slope = x > 40 ? 1 : 1 / (1 + Math.exp(-x));
    return { ampere: (soft_V * (softplus - atRest)) / bulk_ohm + leak_S * volts, siemens: slope / bulk_ohm + leak_S };
  };
}

/**
 * A law with a resistance in series, as one law: u + R·i(u) = v. It rises everywhere as the law itself does.
 * Cost: some ten calls of the law: Newton inside a bracket, to the last digits.
 *
 * @param ohm finite, > 0
 */
export function behindResistance(law: Law, ohm: number): Law {
  return (volts) => {
    let [low, high] = volts < 0 ? [volts, 0] : [0, volts];
    // A law with a source of its own (a battery, an alternator) may push beyond what is applied.
    for (let wide = 1; low + ohm * law(low).ampere > volts; wide *= 4) low -= wide;
    for (let wide = 1; high + ohm * law(high).ampere < volts; wide *= 4) high += wide;
    let own = volts;
    let at = law(own);
    for (let step = 0; step < 200; step++) {
      const miss = own + ohm * at.ampere - volts;
      if (miss > 0) high = Math.min(high, own);
      else low = Math.max(low, own);
      let next = own - miss / (1 + ohm * at.siemens);
      if (!(next > low && next < high)) next = (low + high) / 2;
      if (next === own || Math.abs(next - own) <= 1e-16 * Math.abs(volts)) break;
      own = next;
      at = law(own);
    }
    return { ampere: at.ampere, siemens: at.siemens / (1 + ohm * at.siemens) };
  };
}
