import type { Law, Reading } from '../../circuit/element.ts';
import { blend, resistive, running } from '../../circuit/laws.ts';
import type { Parameter } from '../../circuit/parameter.ts';
import type { FaultMode, Part, PartKind } from '../../circuit/part.ts';
import type { Condition, State } from '../../circuit/scene.ts';
import { fedOrNot, inrushOf, inrushRate, steady } from './inrush.ts';
import { loadFaults } from './loadFaults.ts';
import { current, limits, ratedVolts } from './loadParameters.ts';
import { oneTwoLoad } from './oneTwoLoad.ts';
import { estimate, practice } from './sources.ts';

/** A small direct-current motor with terminals 1 and 2: motor, pump. */
export type MotorHeld = {
  readonly draws: number;
  readonly at: number;
  readonly 'stall-share': number;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
};

/** How the current follows the volts once it turns: see `running`. */
export type MotorGrowth = number;
/** A pump, wiper or window works against a nearly constant torque; a fan against the square of its speed (both estimates). */
export const constantTorque: MotorGrowth = 0.25;
export const fanTorque: MotorGrowth = 0.75;

/** Rotor at speed after this, and standing again after this, s (estimate). */
export const spinUp_s = 0.2;
export const runDown_s = 1.5;

/** Current with the rotor held over running current: wiper 3 to 5 times (2 to 4 A running, 15 to 25 A held). */
export const stallShare = {
  as: 'quantity',
  dimension: 'share',
  about: 'current with the rotor held, as a share of the running current; also its first moment',
  default: 5,
  min: 1.5,
  max: 50,
  source: 'estimate from the wiper: 2 to 4 A running (secondary), 15 to 25 A held (from memory)',
} as const satisfies Parameter;

export function motorParameters<const N extends number>(draws: N, source: string) {
  return {
    draws: current('running current at rated volts', draws, source),
    at: ratedVolts,
    'stall-share': stallShare,
    ...limits(0.75, 0.3, 'estimate: slow to the ear below three quarters of the volts'),
  } as const;
}

/** Current over volts of a motor: at the speed that its volts give it, or like its bare winding while it still stands. */
export function motorLaw(draws: number, at: number, stall: number, growth: MotorGrowth, state: State): Law {
  return blend(running(draws, at, stall, growth), resistive(at / (draws * stall)), inrushOf(state));
}

/** Everything of a two-terminal motor but its names, figures and place. */
export function motorKind(growth: MotorGrowth, what: string, symbol = 'motor') {
  const load = oneTwoLoad<MotorHeld>({
    symbol,
    takes: ({ draws, at, 'stall-share': stall }, now) => motorLaw(draws, at, stall, growth, now.state),
    label: ({ draws }) => `${draws} A`,
  });
  const rates: NonNullable<NonNullable<PartKind<MotorHeld>['timing']>['rates']> = ({ params }, _at, read) => ({
    inrush: inrushRate(fedOrNot(Math.abs(read.across('1', '2')) > 0.15 * params.at), spinUp_s, runDown_s),
  });
  return {
    ...load,
    varies: ['state'] as const,
    initial: (): State => steady,
    faults: (part: Part<MotorHeld>): readonly FaultMode[] => motorFaults(part.id, '', what, part.params),
    timing: { rates },
    // A motor that cranks: its speed follows its volts.
    turning: ({ params }: Part<MotorHeld>, _at: Condition, read: Reading): number => Math.abs(read.across('1', '2')) / params.at,
  };
}

/** Worn brushes, burnt winding, held rotor. */
export function motorFaults(subject: string, element: string, what: string, params: MotorHeld): readonly FaultMode[] {
  const { draws, at } = params;
  const stalled_ohm = at / (draws * params['stall-share']);
  return [
    ...loadFaults(subject, element, what, at / draws, { open: 1.5, resistance: 0.8, comesAndGoes: 1, shorted: 0.1 }, practice),
    {
      subject,
      words: 'seized',
      text: `${what} is held fast and draws its standstill current`,
      weight: 0.5,
      source: estimate,
      changes: () => [{ do: 'fix', element, ohm: stalled_ohm }],
    },
  ];
}
