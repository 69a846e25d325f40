import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { addedLoad } from './shared/addedLoad.ts';
import {
  chargingResistance,
  emptied_ohm,
  innerResistance,
  oneWay,
  openCircuitVolts,
  selfDischarge,
  storedShare,
} from './shared/leadAcid.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';

type BatteryParams = {
  readonly voltage: number;
  readonly capacity: number;
  readonly 'cold-cranking': number | undefined;
  readonly charge: number;
  readonly resistance: number | undefined;
};

/** Cold-cranking amperes for an ampere-hour, for a battery whose file does not say (estimate: 420 A for 50 Ah). */
const crankingPerAh = 8.4;

/** Share of the inner resistance that is laid into the piece which charges less willingly: any share gives the same currents while it gives. */
const plateShare = 0.1;

/** A flat battery gives again once it holds this share of its charge (estimate). */
const revived = 0.002;

/** A lead battery: volts and inner resistance by charge and temperature; it takes charge less willingly than it gives. */
export const battery = definePart({
  kind: 'battery',
  title: 'battery',
  about: 'a lead battery; its volts and inner resistance follow charge and temperature; terminals + and -',
  letter: 'G',
  parameters: {
    voltage: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'nominal volts: 6, 12 or 24 V',
      default: 12,
      min: 1,
      max: 1000,
      source: 'nominal voltage of a 12 V vehicle',
    },
    capacity: {
      as: 'quantity',
      dimension: 'charge',
      about: 'capacity in 20 hours',
      default: 50,
      min: 0.1,
      max: 2000,
      source: 'common practice, no source: a small car',
    },
    'cold-cranking': { as: 'quantity', dimension: 'current', about: 'cold-cranking current; absent: 8.4 A for each Ah', min: 1, max: 5000 },
    charge: {
      as: 'quantity',
      dimension: 'share',
      about: 'state of charge',
      default: 1,
      min: 0,
      max: 1,
      source: 'a charged battery comes first in every diagnosis: common practice, no source',
    },
    resistance: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'inner resistance as it is; absent: 3.0 V over cold-cranking current, by charge and temperature',
      min: 1e-9,
      max: 100,
    },
    'self-discharge': {
      as: 'quantity',
      dimension: 'share',
      about: 'share of the capacity lost in a month at 20 °C',
      default: 0.04,
      min: 0,
      max: 1,
      source: 'from memory: 3 to 5 % a month for a calcium battery',
    },
  },
  terminals: () => [{ name: '+' }, { name: '-' }],
  varies: ['state'],
  initial: ({ params }) => ({ charge: params.charge }),
  elements: ({ params }, at) => {
    const charge = typeof at.state['charge'] === 'number' ? at.state['charge'] : params.charge;
    const rest = openCircuitVolts(charge, params.voltage, at.ambient);
    const inner = params.resistance ?? innerResistance(crankingOf(params), params.voltage, charge, at.ambient);
    const plates = plateShare * inner;
    const charging = Math.max(plates, chargingResistance(params.capacity, params.voltage, charge, rest));
    return [
      { id: '', plus: '~cells', minus: '-', volt: rest, ohm: (1 - plateShare) * inner },
      { id: 'plates', from: '~cells', to: '+', law: oneWay(at.state['flat'] === true ? emptied_ohm : plates, charging) },
    ];
  },
  // Over time the charge goes down to nothing and no further; a battery written as empty still shows its rest volts.
  settle: (_part, { state }) => {
    const charge = Number(state['charge'] ?? 0);
    if (state['flat'] === true) return charge > revived ? { ...state, flat: false } : state;
    return charge < 0 ? { ...state, flat: true, charge: 0 } : state;
  },
  supply: () => ['+', '-'],
  store: ({ params }) => ({
    capacity_Ah: params.capacity,
    charge: params.charge,
    losesPerDay: params['self-discharge'] / 30,
    aged: aged(params),
  }),
  timing: {
    // Ampere-hours as they are: Peukert's exponent is for currents far over the 20-hour one, not for milliamperes, and a
    // start of some seconds takes a thousandth of the charge either way.
    rates: ({ params }, { state, ambient }, read) => {
      const charge = Number(state['charge'] ?? 0);
      const given_A = read.amperes('');
      const moved_A = given_A > 0 ? (state['flat'] === true ? 0 : given_A) : given_A * storedShare(charge);
      return { charge: -moved_A / (3600 * params.capacity) - (charge > 0 ? selfDischarge(params['self-discharge'], ambient) : 0) };
    },
  },
  poles: ({ params }) => [{ id: '', from: '+', to: '-', symbol: 'battery', label: `${params.voltage} V` }],
  faults: (part, { feed }) => [
    ...seriesFaults(
      part.id,
      '',
      'a battery clamp or cell joint',
      { open: 0.7, resistance: 2, comesAndGoes: 1 },
      practice,
      [0.005, 0.03, 0.5],
    ),
    {
      subject: part.id,
      words: 'flat',
      detail: { dimension: 'share', default: 0.3, grades: [0.6, 0.3, 0.05], min: 0, max: 1, optional: true },
      text: 'the battery has only this much charge left',
      weight: 4,
      source: practice,
      excludes: `${part.id} charge`,
      changes: (share) => [{ do: 'params', patch: { charge: share } }],
    },
    {
      subject: part.id,
      words: 'worn out',
      detail: { dimension: 'share', default: 0.4, grades: [0.4], min: 0.05, max: 1, optional: true },
      text: 'the battery has only this share of its cranking current and capacity left',
      weight: 3,
      source: practice,
      excludes: `${part.id} worn out`,
      changes: (share) => [{ do: 'params', patch: wornTo(part, share) }],
    },
    {
      subject: part.id,
      words: 'cell shorted',
      text: 'one cell of the battery is shorted',
      weight: 0.4,
      source: practice,
      excludes: `${part.id} cell shorted`,
      changes: () => [{ do: 'params', patch: { voltage: part.params.voltage - 2 } }],
    },
    {
      subject: part.id,
      words: 'leaks',
      detail: { dimension: 'current', default: 0.05, grades: [0.05], min: 1e-6, max: 100, optional: false },
      text: 'the battery discharges itself over its dirty top',
      weight: 0.3,
      source: estimate,
      excludes: `${part.id} leaks`,
      changes: (ampere) => [{ do: 'draw', from: `${part.id}.+`, to: `${part.id}.-`, ampere }],
    },
    ...(feed?.startsWith(`${part.id}.`)
      ? [addedLoad(part.id, 'feeds an accessory', 'an accessory was added right at the battery', [feed, 'ground'], 0.3, estimate)]
      : []),
  ],
  access: () => accessOf(1, 'at the battery posts', 'acid and gas: no sparks, minus off first', 130),
});

const crankingOf = (params: BatteryParams): number => params['cold-cranking'] ?? crankingPerAh * params.capacity;

/**
 * As it only just passes a load test: 9.6 V of 12.6 V at half its cold-cranking current is 6 V over that current, twice
 * a good one's resistance (arithmetic from makers' load-test tables, secondary).
 */
const aged = (params: BatteryParams) => ({
  'cold-cranking': crankingOf(params) / 2,
  ...(params.resistance !== undefined && { resistance: 2 * params.resistance }),
});

/** A worn battery has less of both, and its resistance grows as its cranking current falls. */
function wornTo({ params }: Part<BatteryParams>, share: number): Readonly<Record<string, unknown>> {
  return {
    capacity: params.capacity * share,
    'cold-cranking': crankingOf(params) * share,
    ...(params.resistance !== undefined && { resistance: params.resistance / share }),
  };
}
