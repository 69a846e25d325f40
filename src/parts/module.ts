import type { Element, Law } from '../circuit/element.ts';
import { resistive, steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { restartDelay } from './shared/fed.ts';
import { resistance, time, voltage } from './shared/loadParameters.ts';
import { checkModule } from './shared/moduleCheck.ts';
import { moduleFaults } from './shared/moduleFaults.ts';
import { conditionForm, type ModuleOutput, type ModulePin, outputsForm, pinsForm } from './shared/moduleForms.ts';
import { countedPins, type ModuleHeld, mainPin, modeOf, nextState, pinNames, startState } from './shared/moduleState.ts';
import { estimate } from './shared/sources.ts';

type Held = ModuleHeld & {
  readonly sense: number;
  readonly 'pull-up': number;
  readonly closed: number;
  readonly 'weak-below': number;
  readonly 'stays-awake': number;
  readonly 'after-run': number;
};

/**
 * Electronic control module: pins that draw or only feel, outputs that close to ground or to a pin while a condition in plain words
 * is met (grammar: `moduleCondition.ts`), and three states of wakefulness with their own draws. A module without
 * supply does nothing.
 */
export const electronicModule = definePart({
  kind: 'module',
  title: 'electronic module',
  about: 'control module: pins with draws or sense, outputs that close on a condition, goes to sleep by steps; ground is 31',
  letter: 'A',
  load: true,
  serves: 'modules',
  parameters: {
    pins: {
      as: 'form',
      about: 'what each pin draws (one current, or by state), or `sense` (felt to ground), or `pull-up` (felt for ground)',
      schema: pinsForm,
      required: true,
      written: '{ "30": { awake: 450 mA, after-run: 120 mA, asleep: 9 mA }, "15": 50 mA, KI: sense, D1: pull-up }',
    },
    outputs: {
      as: 'form',
      about: 'outputs, closing to 31 or to a pin when a condition is met; `carries` is the current that one bears, if known',
      schema: outputsForm,
      default: {} as Readonly<Record<string, ModuleOutput>>,
      written: '{ FP: { to: 31, when: engine turning or within 2 s of 15, carries: 1 A } }',
      source: 'nothing closes unless it is written',
    },
    'awake-when': {
      as: 'form',
      about: 'when it is awake; without it while any pin but its main feed is live (or, with pull-up, grounded)',
      schema: conditionForm,
      written: '15 or KI or D1 grounded',
      source: estimate,
    },
    'stays-awake': time(
      'time awake after its reason has gone',
      120,
      "makers' drain texts (secondary): over 100 mA for the first 2 to 5 min",
    ),
    'after-run': time('time of after-run from then to sleep', 1080, "makers' drain texts (secondary): timers of 20 min in all"),
    needs: voltage('volts on a feeding pin that it needs', 6, 'estimate: control modules work down to 6 to 8 V'),
    'weak-below': voltage('weak below these volts at its main pin', 8, 'estimate: control modules work down to 6 to 8 V'),
    'live-above': voltage('a pin counts as live from these volts', 5, estimate),
    sense: resistance('resistance to 31 of a pin that only feels', 100e3, estimate),
    'pull-up': resistance('resistance to the main pin of a pin that feels for ground', 10e3, estimate),
    closed: resistance('resistance of a closed output', 0.2, estimate),
    'kept-awake': {
      as: 'word',
      words: ['no', 'after-run', 'awake'],
      about: 'the state that it does not get below, for a module known to be faulty',
      default: 'no',
      source: 'a healthy module sleeps',
    },
  },
  check: (part: Part<Held>) => checkModule(part.params),
  terminals: ({ params }) => [
    ...pinNames(params).map((name) => ({ name, about: pinAbout(params.pins[name], params.outputs[name]) })),
    { name: '31', about: 'ground' },
  ],
  varies: ['state', 'engine'],
  elements: (part: Part<Held>, at): readonly Element[] => {
    const { pins, outputs, closed } = part.params;
    const mode = modeOf(at.state);
    const main = mainPin(pins);
    return [
      ...Object.entries(pins).map(([name, pin]): Element => {
        if (pin.is === 'sense') return { id: name, from: name, to: '31', ohm: part.params.sense };
        if (pin.is === 'pull-up') return { id: name, from: main, to: name, ohm: part.params['pull-up'] };
        return {
          id: name,
          from: name,
          to: '31',
          law: drawLaw(mode === 'awake' ? pin.awake : mode === 'after-run' ? pin.afterRun : pin.asleep),
        };
      }),
      ...Object.entries(outputs).map(([name, { to }]): Element => {
        const ohm = at.state[`closed ${name}`] === true ? closed : Number.POSITIVE_INFINITY;
        return to === '31' ? { id: outputId(name, to), from: name, to, ohm } : { id: outputId(name, to), from: to, to: name, ohm };
      }),
    ];
  },
  initial: ({ params }) => startState(params),
  settle: ({ params }, at, read) => nextState(params, at, read),
  judge: ({ params }, at, read) => {
    const main = mainPin(params.pins);
    const [volts, amperes] = [Math.abs(read.across(main, '31')), Math.abs(read.amperes(main))];
    const mode = modeOf(at.state);
    const lives = mode === 'awake' || mode === 'after-run';
    return { verdict: !lives ? 'dead' : volts >= params['weak-below'] ? 'works' : 'weak', volts, amperes };
  },
  loadEnds: ({ params }) => [mainPin(params.pins), '31'],
  ratings: ({ params }) =>
    Object.entries(params.outputs).flatMap(([name, { to, carries }]) =>
      carries === undefined
        ? []
        : [{ element: outputId(name, to), limit_A: carries, what: `output ${name} of the module`, source: 'the circuit file' }],
    ),
  poles: (part: Part<Held>) => {
    const { pins, outputs } = part.params;
    const main = mainPin(pins);
    return [
      ...Object.entries(pins).map(([name, pin]) =>
        pin.is === 'pull-up'
          ? { id: name, from: main, to: name, symbol: 'box', label: name }
          : { id: name, from: name, to: '31', symbol: pin.is === 'sense' ? 'box' : 'module', label: name },
      ),
      ...Object.entries(outputs).map(([name, { to }]) => {
        const [from, end] = to === '31' ? [name, to] : [to, name];
        return { id: outputId(name, to), from, to: end, symbol: 'contact', label: name };
      }),
    ];
  },
  faults: (part: Part<Held>) => moduleFaults(part.id, part.params, outputId),
  access: () => accessOf(15, 'behind trim', 'battery off before unplugging; never test its wires with a test lamp', 300),
  timing: {
    delay: ({ params }, state, wanted) => {
      const [from, to] = [modeOf(state), modeOf(wanted)];
      if (from === 'awake' && to === 'after-run') return params['stays-awake'];
      return from === 'after-run' && to === 'asleep' ? params['after-run'] : restartDelay(state, wanted);
    },
    rates: ({ params }, { state }) =>
      Object.fromEntries([...countedPins(params).keys()].map((pin) => [`for ${pin}`, state[`live ${pin}`] === true ? 1 : 0])),
  },
});

/** An output's element, named as a key-switch contact is: `FP-31`, `30-AC`. */
function outputId(name: string, to: string): string {
  return to === '31' ? `${name}-31` : `${to}-${name}`;
}

function drawLaw(ampere: number): Law {
  return ampere > 0 ? steadyDraw(ampere, 1) : resistive(1e9);
}

function pinAbout(pin: ModulePin | undefined, output: ModuleOutput | undefined): string {
  const felt = pin === undefined ? [] : [pin.is === 'draw' ? 'feed' : pin.is === 'sense' ? 'felt' : 'felt for ground'];
  return [...felt, ...(output ? [`output to ${output.to}`] : [])].join(', ');
}
