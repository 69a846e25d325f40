import type { BatteryTime } from '../drain/batteryTime.ts';
import type { DrainAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';

/** `5.6 days`, `19 h`, `40 min`; over three years nobody counts. */
export function hoursText(hours: number): string {
  if (!(hours > 0)) return 'no time at all';
  if (hours < 1) return `${Math.round(60 * hours)} min`;
  if (hours < 48) return `${hours < 10 ? hours.toFixed(1) : Math.round(hours)} h`;
  const days = hours / 24;
  return days > 1100 ? 'over 3 years' : `${days < 10 ? days.toFixed(1) : Math.round(days)} days`;
}

/** Seconds after the key came out: `15 s`, `3.2 min`, `1.4 h`. */
export const sinceText = (seconds: number): string =>
  seconds < 100
    ? `${Math.round(seconds)} s`
    : seconds < 6000
      ? `${(seconds / 60).toFixed(seconds < 600 ? 1 : 0)} min`
      : `${(seconds / 3600).toFixed(1)} h`;

/** The current that the answer is about: as read, else as supposed, else as the circuit has it. */
export function leading(answer: DrainAnswer): {
  readonly amperes: number;
  readonly battery: BatteryTime | undefined;
  readonly is: 'read' | 'supposed' | 'reckoned';
} {
  if (answer.read_A !== undefined) return { amperes: answer.read_A, battery: answer.readBattery, is: 'read' };
  if (answer.hypothesis) return { amperes: answer.hypothesis.predicts.amperes, battery: answer.supposedBattery, is: 'supposed' };
  return { amperes: answer.keyOff.amperes, battery: answer.battery, is: 'reckoned' };
}

/** `898 mA with the key out`. */
export function drainSentence(answer: DrainAnswer): string {
  const { amperes, is } = leading(answer);
  const out = answer.keyOff.at.scene.key ? 'with the key out' : 'at rest';
  return is === 'supposed' ? `${ampereText(amperes)} ${out}, if it is so` : `${ampereText(amperes)} ${out}`;
}

/** What that means beside the healthy vehicle, and for the battery. */
export function drainMeaning(answer: DrainAnswer): string {
  const { amperes, battery } = leading(answer);
  const sound = answer.healthy.amperes;
  const times = sound > 1e-5 ? amperes / sound : Number.POSITIVE_INFINITY;
  const beside =
    amperes - sound < 0.003 && amperes < 1.3 * sound + 0.001
      ? 'As it should be.'
      : times === Number.POSITIVE_INFINITY || sound < 5e-4
        ? 'It should draw next to nothing.'
        : `${times < 10 ? times.toFixed(1) : Math.round(times)} times the ${ampereText(sound)} that it should draw.`;
  return battery ? `${beside} ${batterySentence(battery, answer.circuit.engine !== undefined)}` : beside;
}

function batterySentence(b: BatteryTime, engine: boolean): string {
  const what = engine ? 'Too flat to crank' : 'Flat';
  if (b.charge <= b.noStartCharge) return `The battery is too flat to crank as it stands, at ${b.ambient} °C.`;
  const [worst, best] = b.spread;
  const range =
    worst > 0
      ? `${hoursText(worst)} with a tired battery to ${hoursText(best)}`
      : `a tired battery does not crank at all at ${b.ambient} °C`;
  return `${what} in ${hoursText(b.hoursToNoStart)} at ${b.ambient} °C (${range}).`;
}
