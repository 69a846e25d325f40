import type { Element } from '../circuit/element.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { resistance } from './shared/loadParameters.ts';
import { bridged } from './shared/shortFaults.ts';
import { estimate, fromMemory, practice } from './shared/sources.ts';

type Held = { readonly 'killed-by': number };

/**
 * What the part feels its kill lead with: 0.5 V behind 1 kΩ, 0.5 mA at most, a current of its own that no battery
 * sees. The pulses of the real thing are no direct current, and what stops it is a path to ground: so that path is
 * measured. The half volt is well above what the loads of a helm lift their common return.
 */
const feeler_V = 0.5;
const feeler_ohm = 1000;

/** Less than this against the feeler is rounding or damp, not a path, A (estimate: 0.5 V through half a megohm). */
const pushedBack_A = 1e-6;

/** A magneto or a capacitor ignition that makes its own current: it sparks unless its kill lead is grounded. */
export const magneto = definePart({
  kind: 'magneto',
  title: 'magneto',
  about: 'makes its own ignition current; works unless the kill lead finds a way to 31',
  letter: 'T',
  load: true,
  serves: 'engine',
  parameters: {
    'killed-by': resistance('a path to ground with less than this stops it; up to ten times as much makes it weak', 1000, fromMemory),
  },
  terminals: () => [
    { name: 'kill', about: 'stop lead: grounded = no spark; up to 300 V in pulses' },
    { name: '31', about: 'engine' },
  ],
  elements: (): readonly Element[] => [{ id: 'kill', plus: 'kill', minus: '31', volt: feeler_V, ohm: feeler_ohm }],
  judge: ({ params }, _at, read) => {
    const volts = read.across('kill', '31');
    const amperes = read.amperes('kill');
    // Pushed back by the lifted return of other loads, or by a feed: a path all the same.
    const path_ohm = amperes > 1e-12 ? Math.max(0, volts) / amperes : amperes < -pushedBack_A ? 0 : Number.POSITIVE_INFINITY;
    const verdict = path_ohm <= params['killed-by'] ? 'dead' : path_ohm < 10 * params['killed-by'] ? 'weak' : 'works';
    return { verdict, volts: Math.abs(volts), amperes: Math.abs(amperes) };
  },
  loadEnds: () => ['kill', '31'],
  poles: () => [{ id: 'kill', from: 'kill', to: '31', symbol: 'magneto' }],
  faults: (part: Part<Held>) => [
    {
      subject: part.id,
      words: 'dead',
      text: 'the magneto makes no spark, whatever its kill lead does',
      weight: 1,
      source: practice,
      changes: () => [{ do: 'params', patch: { 'killed-by': Number.POSITIVE_INFINITY } }],
    },
    {
      subject: part.id,
      words: 'kill terminal open',
      text: 'the kill terminal has no connection inside: the engine cannot be stopped',
      weight: 0.5,
      source: estimate,
      changes: () => [{ do: 'params', patch: { 'killed-by': 1e-9 } }],
    },
    bridged(part.id, 'kill', '31', 'kill terminal and engine,', 0.5, estimate),
  ],
  access: () => accessOf(10, 'at the flywheel', 'up to 300 V in pulses: no hand, no ordinary meter on the kill lead while it turns', 150),
});
