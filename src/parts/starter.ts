import type { Law } from '../circuit/element.ts';
import { blend, resistive, running } from '../circuit/laws.ts';
import { definePart, type FaultMode, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { fedOrNot, inrushOf, inrushRate } from './shared/inrush.ts';
import { ownVolts } from './shared/lawVerdict.ts';
import { named, seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { verdictOf } from './shared/verdict.ts';

/** Main contact of the solenoid, Ω: 0.1 V at 200 A when good (estimate; the limit is 0.3 V, a manual quoting SAE, secondary). */
const contact_ohm = 0.0005;
const bypass_ohm = 0.01;

/**
 * How much like a standing motor it draws in the first moment, from 0 to 1, and how long until it turns at speed, s.
 * Estimate: the volts of a small car dip to about 8 before they stand at 9.5 and more, as in the first start profile
 * of ISO 16750-2 (15 ms and 50 ms; a test bench catalogue, secondary).
 */
const standingShare = 0.35;
const spinUp_s = 0.15;
const runDown_s = 0.5;

/** Torque of a cranked engine: most of it friction and compression, whatever the speed (estimate). */
const growth = 0.25;

function motorLaw(params: { readonly nominal: number; readonly cranking: number; readonly locked: number; readonly turns: string }): Law {
  if (params.turns === 'locked') return resistive(params.locked);
  const at_V = (7 / 8) * params.nominal;
  return running(at_V / params.cranking, at_V, Math.max(1.5, params.cranking / params.locked), growth);
}

type StarterParams = { readonly 'pull-in': number; readonly 'hold-in': number; readonly nominal: number };

/** Both windings have the same turns, so their pull is the sum of their currents. As volts: what both would need at terminal 50. */
function pullOf({ params }: Part<StarterParams>, pullIn_A: number, holdIn_A: number): number {
  return (pullIn_A + holdIn_A) / (1 / params['pull-in'] + 1 / params['hold-in']);
}

/**
 * Starter with its solenoid. The pull-in winding lies between 50 and the motor and has nothing across it once the main
 * contact is closed; the hold-in winding lies between 50 and ground. So a broken hold-in winding makes it hammer, and
 * after the key lets go both windings are in series with opposite pull, and it drops out. The motor turns
 * the engine against a torque that hardly depends on speed: standing it is a few milliohms, turning its back-EMF
 * leaves nearly the same current at any volts.
 */
export const starter = definePart({
  kind: 'starter',
  title: 'starter with solenoid',
  about: 'motor on 30 through the solenoid contact; windings on 50; 16 is joined to 30 while engaged',
  letter: 'M',
  load: true,
  serves: 'starting',
  parameters: {
    nominal: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'volts that it is made for',
      default: 12,
      min: 1,
      max: 100,
      source: 'nominal voltage of a 12 V vehicle',
    },
    'pull-in': {
      as: 'quantity',
      dimension: 'resistance',
      about: 'pull-in winding',
      default: 0.45,
      min: 0.01,
      max: 100,
      source: 'common practice, no source: 25 A in a small car; a larger one has 0.13 to 0.25 Ω (service data, secondary)',
    },
    'hold-in': {
      as: 'quantity',
      dimension: 'resistance',
      about: 'hold-in winding',
      default: 1.15,
      min: 0.01,
      max: 100,
      source: 'common practice, no source: 10 A in a small car; a larger one has 0.5 to 1.0 Ω (service data, secondary)',
    },
    cranking: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'motor at cranking speed: volts over amperes at seven eighths of nominal volts',
      default: 0.062,
      min: 0.0005,
      max: 100,
      source: 'service data: 4 cylinders crank with 150 to 185 A (secondary), 10.7 V at the motor',
    },
    locked: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'motor that cannot turn',
      default: 0.0078,
      min: 0.0002,
      max: 100,
      source: 'service data: 515 A at 4 V locked, 7.8 mΩ (secondary)',
    },
    turns: { as: 'word', words: ['free', 'locked'], about: 'whether the engine lets it turn', default: 'free', source: practice },
    bypass: { as: 'flag', about: 'has terminal 16, joined to 30 while engaged', default: false, source: practice },
    'pulls-at': {
      as: 'quantity',
      dimension: 'share',
      about: 'share of nominal volts at 50 from which it pulls in',
      default: 0.667,
      min: 0.05,
      max: 1,
      source: 'from memory: wants 8 V or more at terminal 50',
    },
    'holds-at': {
      as: 'quantity',
      dimension: 'share',
      about: 'share of nominal volts across the hold-in winding down to which it holds',
      default: 0.25,
      min: 0.01,
      max: 1,
      source: estimate,
    },
    'weak-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'turns too slowly below this share of nominal volts at the motor',
      default: 0.72,
      min: 0,
      max: 1,
      source: 'estimate: 9.5 V at the battery (service data, secondary) less 0.8 V lost on both sides',
    },
    'dead-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'does not turn the engine below this share',
      default: 0.4,
      min: 0,
      max: 1,
      source: estimate,
    },
  },
  terminals: ({ params }) => [
    { name: '30', about: 'battery plus' },
    { name: '50', about: 'solenoid' },
    { name: '31', about: 'ground' },
    ...(params.bypass ? [{ name: '16', about: 'ballast bypass', optional: true as const }] : []),
  ],
  varies: ['state'],
  initial: () => ({ engaged: false }),
  elements: ({ params }, at) => {
    const engaged = at.state['engaged'] === true;
    return [
      { id: 'contact', from: '30', to: '~45', ohm: engaged ? contact_ohm : Number.POSITIVE_INFINITY },
      { id: 'motor', from: '~45', to: '31', law: blend(motorLaw(params), resistive(params.locked), standingShare * inrushOf(at.state)) },
      { id: 'pull-in', from: '50', to: '~45', ohm: params['pull-in'] },
      { id: 'hold-in', from: '50', to: '31', ohm: params['hold-in'] },
      ...(params.bypass ? [{ id: 'bypass', from: '30', to: '16', ohm: engaged ? bypass_ohm : Number.POSITIVE_INFINITY }] : []),
    ];
  },
  settle: (part, { state }, read) => {
    const { params } = part;
    // Opposed currents cancel; the armature does not care for the common sign (positive-ground vehicles).
    const volts = Math.abs(pullOf(part, read.amperes('pull-in'), read.amperes('hold-in')));
    const held = Math.abs(read.amperes('pull-in') + read.amperes('hold-in')) * params['hold-in'];
    const engaged = state['engaged'] === true ? held >= params['holds-at'] * params.nominal : volts >= params['pulls-at'] * params.nominal;
    return engaged === (state['engaged'] === true) ? state : { ...state, engaged };
  },
  timing: {
    // Estimate: the armature needs some hundredths of a second to mesh and close the contact.
    delay: (_part, _state, wanted) => (wanted['engaged'] === true ? 0.03 : 0.015),
    rates: (_part, { state }) => ({ inrush: inrushRate(fedOrNot(state['engaged'] === true), spinUp_s, runDown_s) }),
  },
  turning: ({ params }, _at, read) => {
    if (params.turns === 'locked') return 0;
    const law = motorLaw(params);
    const volts = ownVolts(law, Math.abs(read.across('~45', '31')), Math.abs(read.amperes('motor')));
    // By its back-EMF: what the winding does not lose. At rated volts the same of rated current.
    const at_V = (7 / 8) * params.nominal;
    return Math.max(0, volts - law(volts).ampere * params.locked) / (at_V * (1 - params.locked / params.cranking));
  },
  judge: ({ params }, _at, read) => {
    const amperes = Math.abs(read.amperes('motor'));
    const volts = Math.abs(read.across('~45', '31'));
    // Volts behind worn brushes: those that the current needs.
    const share = params.turns === 'locked' ? 0 : ownVolts(motorLaw(params), volts, amperes) / params.nominal;
    return { verdict: verdictOf(share, params['weak-below'], params['dead-below']), volts, amperes };
  },
  loadEnds: () => ['30', '31'],
  poles: ({ params }) => [
    { id: 'contact', from: '30', to: '~45', symbol: 'contact' },
    { id: 'motor', from: '~45', to: '31', symbol: 'starter' },
    { id: 'pull-in', from: '50', to: '~45', symbol: 'coil', label: 'pull-in' },
    { id: 'hold-in', from: '50', to: '31', symbol: 'coil', label: 'hold-in' },
    ...(params.bypass ? [{ id: 'bypass', from: '30', to: '16', symbol: 'contact', label: '16' }] : []),
  ],
  faults: (part) => starterFaults(part.id, part.params.bypass),
  access: () => accessOf(10, 'at the starter', 'B+ is unfused and live; out of gear, wheels chocked, hands clear before cranking', 250),
});

function starterFaults(id: string, bypass: boolean): readonly FaultMode[] {
  const winding = (name: string) =>
    named(seriesFaults(id, name, `the ${name} winding`, { open: 0.6, resistance: 0.3, comesAndGoes: 0.2 }, practice, [0.2, 1]), name);
  return [
    ...contactFaults(
      id,
      'contact',
      'contact',
      'the solenoid contact',
      contact_ohm,
      { open: 1.5, resistance: 1.5, comesAndGoes: 1.5, stuck: 0.3 },
      practice,
    ).map((m) => (m.detail?.dimension === 'resistance' ? { ...m, detail: { ...m.detail, default: 0.03, grades: [0.01, 0.03, 0.2] } } : m)),
    ...winding('pull-in'),
    ...winding('hold-in'),
    ...named(
      seriesFaults(id, 'motor', 'the motor with its brushes', { open: 0.8, resistance: 1, comesAndGoes: 1 }, practice, [0.01, 0.02, 0.1]),
      'brushes',
    ),
    ...(bypass
      ? contactFaults(
          id,
          'bypass',
          'bypass',
          'the bypass contact to terminal 16',
          bypass_ohm,
          { open: 0.8, resistance: 0.5, comesAndGoes: 0.3, stuck: 0.1 },
          practice,
        )
      : []),
    {
      subject: id,
      words: 'locked',
      text: 'the starter or the engine cannot turn',
      weight: 0.3,
      source: estimate,
      excludes: `${id} locked`,
      changes: () => [{ do: 'params', patch: { turns: 'locked' } }],
    },
  ];
}
