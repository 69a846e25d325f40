import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { withExcess } from './shared/lawVerdict.ts';
import { loadFaults, shortedTurns } from './shared/loadFaults.ts';
import { resistance } from './shared/loadParameters.ts';
import { estimate, practice } from './shared/sources.ts';

type Held = { readonly resistance: number; readonly 'weak-below': number | undefined; readonly 'dead-below': number | undefined };

/** Under this the coil is made for a ballast in front of it: 1.2 to 1.8 Ω against 3.0 to 3.5 Ω without (from memory), Ω. */
const ballastKind_ohm = 2.2;
/** Weak limits, V at the coil with the points closed: a service text counts 4.5 to 6.6 V as normal behind a ballast (secondary); points ignition without one works from 6 V (estimate). */
const weak_V = { ballast: 4.5, direct: 6 };
/** A spark of some kind down to this share of the weak limit (estimate). */
const sparkShare = 0.67;

/** Ignition coil, primary side; the current stands while the points or the module close it. */
export const coil = definePart({
  kind: 'coil',
  title: 'ignition coil',
  about: '15 feed, 1 to the points or the module; judged with its current standing; works from about 4.5 V behind a ballast, 6 V without',
  letter: 'T',
  load: true,
  serves: 'engine',
  parameters: {
    resistance: resistance('resistance of the primary', 3.2, 'from memory: 3.0 to 3.5 Ω with points and without a ballast'),
    'weak-below': {
      as: 'quantity',
      dimension: 'voltage',
      about: 'weak spark below this; without it 4.5 V for a coil under 2.2 Ω, else 6 V',
      min: 0.1,
      max: 100,
      source: 'a service text counts 4.5 to 6.6 V as normal behind a ballast (secondary); 6 V is an estimate',
    },
    'dead-below': {
      as: 'quantity',
      dimension: 'voltage',
      about: 'no spark below this; without it two thirds of the weak limit',
      min: 0,
      max: 100,
      source: estimate,
    },
  },
  terminals: () => [
    { name: '15', about: 'feed' },
    { name: '1', about: 'to points or module' },
  ],
  elements: ({ params }) => [{ id: '', from: '15', to: '1', ohm: params.resistance }],
  judge: ({ params }, _at, read) => {
    const [volts, amperes] = [Math.abs(read.across('15', '1')), Math.abs(read.amperes(''))];
    const own_V = Math.min(volts, amperes * params.resistance);
    const weak = params['weak-below'] ?? weak_V[params.resistance < ballastKind_ohm ? 'ballast' : 'direct'];
    const dead = params['dead-below'] ?? sparkShare * weak;
    const verdict = own_V >= weak ? 'works' : own_V >= dead ? 'weak' : 'dead';
    return { verdict: withExcess(verdict, volts / params.resistance, amperes), volts, amperes };
  },
  loadEnds: () => ['15', '1'],
  poles: ({ params }) => [{ id: '', from: '15', to: '1', symbol: 'coil', label: `${params.resistance} Ω` }],
  faults: (part: Part<Held>) => [
    ...loadFaults(
      part.id,
      '',
      'the primary',
      part.params.resistance,
      { open: 1, resistance: 0.4, comesAndGoes: 0.6, shorted: 0.1 },
      practice,
    ),
    shortedTurns(part.id, '', 'the primary', part.params.resistance, 0.3, estimate),
  ],
  access: () => accessOf(3, 'at the ignition coil', 'high voltage: keep clear while the engine turns', 40),
});
