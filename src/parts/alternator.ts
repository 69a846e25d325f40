import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type FaultMode } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { blocked, regulatedMachine } from './shared/machineLaw.ts';
import { named, seriesFaults } from './shared/seriesFaults.ts';
import { shortToGround } from './shared/shortFaults.ts';
import { estimate, practice } from './shared/sources.ts';

/** What the field diodes give at most, A: a field of 4 Ω takes 3.5 A (computed), the rest is reserve (estimate). */
const field_A = 6;

/**
 * Alternator with field diodes and a regulator of its own. The charge lamp feeds the rotor through D+ until the machine
 * excites itself; once it does, D+ stands at the charging volts and the lamp has the same on both sides. It then
 * stays excited while it turns, even with the lamp's feed gone: that is how D+ can keep terminal 15 alive.
 */
export const alternator = definePart({
  kind: 'alternator',
  title: 'alternator',
  about: 'charges from B+ once excited through D+; stopped, D+ leads to 31 through the rotor',
  letter: 'G',
  parameters: {
    voltage: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'regulated volts',
      default: 14.2,
      min: 5,
      max: 60,
      source: 'service data: 13.7 to 14.6 V at 20 °C (secondary)',
    },
    rated: {
      as: 'quantity',
      dimension: 'current',
      about: 'most that it gives',
      default: 45,
      min: 1,
      max: 1000,
      source: 'common practice, no source: a small car of the 1970s',
    },
    rotor: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'rotor with brushes',
      default: 4,
      min: 0.1,
      max: 1000,
      source: 'common practice, no source',
    },
    'excites-at': {
      as: 'quantity',
      dimension: 'current',
      about: 'rotor current from which it excites itself',
      default: 0.08,
      min: 0,
      max: 10,
      source: 'estimate: a 2 to 3 W lamp gives 0.15 to 0.25 A, an LED does not do',
    },
    leaks: {
      as: 'quantity',
      dimension: 'current',
      about: 'what regulator and diodes draw from B+ all the time',
      default: 0.001,
      min: 1e-9,
      max: 10,
      source: 'service data: regulator 1.4 mA usual (secondary); good under 2 to 5 mA, from memory',
    },
    excitation: {
      as: 'word',
      words: ['lamp', 'magnet'],
      about: 'lamp: through D+; magnet: no D+ at all (magnet rotor, or a regulator on a data line)',
      default: 'lamp',
      source: practice,
    },
    turns: {
      as: 'word',
      words: ['with the engine', 'never'],
      about: 'whether its belt drives it',
      default: 'with the engine',
      source: practice,
    },
  },
  terminals: ({ params }) => [
    { name: 'B+', about: 'battery plus' },
    ...(params.excitation === 'lamp' ? [{ name: 'D+', about: 'charge lamp, excitation' }] : []),
    { name: '31', about: 'ground' },
    { name: 'W', about: 'phase, for a speed counter', optional: true },
  ],
  varies: ['engine', 'state'],
  initial: () => ({ excited: false }),
  elements: ({ params }, at) => {
    const gives = at.engine === 'running' && at.state['excited'] === true && params.turns !== 'never';
    return [
      { id: '', from: 'B+', to: '31', law: gives ? regulatedMachine(params.voltage, params.rated, 0.2) : blocked },
      ...(params.excitation === 'lamp'
        ? [
            { id: 'field-diodes', from: 'D+', to: '31', law: gives ? regulatedMachine(params.voltage, field_A, 0.3) : blocked },
            { id: 'rotor', from: 'D+', to: '31', ohm: params.rotor },
          ]
        : []),
      { id: 'leak', from: 'B+', to: '31', law: steadyDraw(params.leaks) },
    ];
  },
  settle: ({ params }, at, read) => {
    const field = params.excitation === 'magnet' || Math.abs(read.amperes('rotor')) >= params['excites-at'];
    const excited = at.engine === 'running' && params.turns !== 'never' && field;
    return excited === (at.state['excited'] === true) ? at.state : { ...at.state, excited };
  },
  supply: () => ['B+', '31'],
  ratings: ({ params }) => [
    { element: '', limit_A: params.rated, what: `alternator of ${params.rated} A`, source: 'rated current in the circuit file' },
  ],
  poles: ({ params }) => [
    { id: '', from: 'B+', to: '31', symbol: 'alternator', label: `${params.rated} A` },
    ...(params.excitation === 'lamp' ? [{ id: 'rotor', from: 'D+', to: '31', symbol: 'coil', label: 'rotor' }] : []),
  ],
  faults: (part) => {
    const { id, params } = part;
    const patched = (words: string, text: string, weight: number, patch: Readonly<Record<string, unknown>>): FaultMode => ({
      subject: id,
      words,
      text,
      weight,
      source: estimate,
      excludes: `${id} ${words}`,
      changes: () => [{ do: 'params', patch }],
    });
    return [
      ...(params.excitation === 'lamp' ? fieldFaults(id) : []),
      {
        subject: id,
        words: 'diode leaks',
        detail: { dimension: 'current', default: 0.4, grades: [0.1, 0.4, 2], min: 1e-6, max: 50, optional: false },
        text: 'a rectifier diode lets current back from B+ to ground',
        weight: 0.8,
        source: practice,
        excludes: `${id} diode leaks`,
        changes: (ampere) => [{ do: 'draw', from: `${id}.B+`, to: `${id}.31`, ampere }],
      },
      patched('diode open', 'a rectifier diode is open: about a third of the current is missing', 0.5, { rated: 0.67 * params.rated }),
      patched('overcharges', 'the regulator does not hold the volts down', 0.5, { voltage: 1.25 * params.voltage }),
      patched('charges low', 'the regulator holds the volts too low', 0.3, { voltage: 0.92 * params.voltage }),
      patched('belt off', 'the belt does not turn the alternator', 0.7, { turns: 'never' }),
    ];
  },
  access: () => accessOf(6, 'at the alternator', 'belt and fan; B+ is unfused and live: disconnect the battery first', 250),
});

/** What can go wrong between the charge lamp and the rotor. */
function fieldFaults(id: string): readonly FaultMode[] {
  return [
    ...named(
      seriesFaults(
        id,
        'rotor',
        'the rotor with brushes and regulator',
        { open: 2, resistance: 0.5, comesAndGoes: 1.5 },
        practice,
        [10, 50],
      ),
      'rotor',
    ),
    {
      subject: id,
      words: 'exciter diode shorted',
      text: 'a diode between B+ and D+ is shorted: D+ is live all the time',
      weight: 0.3,
      source: practice,
      excludes: `${id} exciter diode shorted`,
      changes: () => [{ do: 'bridge', from: `${id}.B+`, to: `${id}.D+`, ohm: 0.5 }],
    },
    shortToGround(`${id}.D+`, `${id}.D+`, 'terminal D+', 0.2, estimate),
  ];
}
