import type { Law } from '../circuit/element.ts';
import { junction } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { withExcess } from './shared/lawVerdict.ts';
import { current, ratedVolts, share } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, fromMemory, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';
import { verdictOf } from './shared/verdict.ts';

/** An LED lamp glows visibly on this much, also when it is only leakage, A (from memory: 1 to 5 mA). */
const glows_A = 0.001;

type Held = { readonly current: number; readonly at: number; readonly 'dark-below': number; readonly reversed: boolean };

/**
 * A lamp of light-emitting diodes: a string of them with a resistor. Nothing below the string's own volts, polarity
 * counts, and a little leakage is enough to make it glow.
 */
export const ledLamp = definePart({
  kind: 'led-lamp',
  title: 'LED lamp',
  about: 'light-emitting diodes with a resistor: dark below 7 to 8 V, glows on leakage, polarity counts',
  letter: 'E',
  driver: { works: 'lights up', weak: 'glows only faintly', dead: 'stays dark' },
  load: true,
  serves: 'light',
  parameters: {
    current: current('current at rated volts', 0.15, 'from memory: 0.05 to 0.2 A in the place of a 21 W lamp'),
    at: ratedVolts,
    'dark-below': share('dark below this share of rated volts', 0.625, 'from memory: off below 7 to 8 V of 12 V'),
    'weak-below': share('weak below this share of rated volts', 0.8, estimate),
    reversed: { as: 'flag', about: 'fitted the wrong way round', default: false, source: 'common practice, no source' },
  },
  terminals: () => oneAndTwo,
  elements: ({ params }) => [{ id: '', from: params.reversed ? '2' : '1', to: params.reversed ? '1' : '2', law: lawOf(params) }],
  judge: ({ params }, _at, read) => {
    const amperes = Math.max(0, read.amperes(''));
    // By the current, which is what makes the light: the volts of the string follow from it.
    const lit = (params['dark-below'] + (1 - params['dark-below']) * (amperes / params.current)) * Math.sign(amperes);
    const verdict = amperes < glows_A ? 'dead' : verdictOf(lit, params['weak-below'], 0);
    const volts = read.across('1', '2');
    return { verdict: withExcess(verdict, lawOf(params)(volts).ampere, amperes), volts: Math.abs(volts), amperes };
  },
  loadEnds: () => ['1', '2'],
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'led' }],
  faults: (part: Part<Held>) => {
    const hot = part.params.at / part.params.current;
    return [
      ...seriesFaults(part.id, '', 'the LED lamp', { open: 1.5, resistance: 0.3, comesAndGoes: 0.8 }, fromMemory, [0.5 * hot, 3 * hot]),
      {
        subject: part.id,
        words: 'shorted',
        text: 'the LED lamp is shorted inside',
        weight: 0.1,
        source: estimate,
        changes: () => [{ do: 'fix', element: '', ohm: 0.05 }],
      },
      {
        subject: part.id,
        words: 'reversed',
        text: 'the LED lamp is fitted the wrong way round',
        weight: 0.5,
        source: practice,
        changes: () => [{ do: 'params', patch: { reversed: !part.params.reversed } }],
      },
    ];
  },
  access: () => accessOf(2, 'at the lamp', undefined, 8),
});

function lawOf(params: Held): Law {
  const own_V = params['dark-below'] * params.at;
  return junction(own_V, (params.at - own_V) / params.current);
}
