import type { Element, Reading } from '../circuit/element.ts';
import { definePart, type Judged, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { fedOrNot, inrushOf, inrushRate } from './shared/inrush.ts';
import { judgedByLaw } from './shared/lawVerdict.ts';
import { current, limits, ratedVolts, time } from './shared/loadParameters.ts';
import { constantTorque, motorFaults, motorLaw, runDown_s, spinUp_s, stallShare } from './shared/motorModel.ts';
import { practice } from './shared/sources.ts';

type Held = {
  readonly draws: number;
  readonly fast: number;
  readonly at: number;
  readonly stroke: number;
  readonly 'stall-share': number;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
};

/** Contact of the park switch when closed, Ω (estimate: as a small switch). */
const park_ohm = 0.02;
/** Share of a stroke in which the blades count as parked (estimate). */
const parkedShare = 0.06;

/**
 * Wiper motor with two speeds and a park switch of its own: 53a is always live with the ignition, and while the
 * blades are off their rest the park switch joins it to 53, so that the motor runs on to the rest after switching off.
 */
export const wiperMotor = definePart({
  kind: 'wiper-motor',
  title: 'wiper motor',
  about: '53 slow, 53b fast, 53a feed of the park switch, which runs the blades to their rest',
  letter: 'M',
  driver: { works: 'wipes', weak: 'wipes slowly', dead: 'does not move' },
  load: true,
  serves: 'body',
  parameters: {
    draws: current('current at slow speed, wet glass', 3.5, 'load lists (secondary): 3 to 7.5 A on wet glass, at most 2 A bare'),
    fast: current('current at fast speed, wet glass', 5, 'load lists (secondary): 3 to 7.5 A on wet glass, at most 4 A bare'),
    at: ratedVolts,
    stroke: time('time of one stroke there and back at slow speed', 1.4, 'estimate: about 45 strokes a minute'),
    'stall-share': stallShare,
    ...limits(0.75, 0.3),
  },
  terminals: () => [
    { name: '53', about: 'slow speed' },
    { name: '53a', about: 'feed of the park switch', optional: true },
    { name: '53b', about: 'fast speed', optional: true },
    { name: '31', about: 'ground' },
  ],
  varies: ['state'],
  elements: ({ params }, at): readonly Element[] => [
    { id: 'slow', from: '53', to: '31', law: speedLaw(params, 'slow', inrushOf(at.state)) },
    { id: 'fast', from: '53b', to: '31', law: speedLaw(params, 'fast', inrushOf(at.state)) },
    { id: 'park', from: '53a', to: '53', ohm: at.state['parked'] === false ? park_ohm : Number.POSITIVE_INFINITY },
  ],
  initial: () => ({ inrush: 0, stroke: 0, parked: true }),
  settle: (_part, { state }) => {
    const stroke = Number(state['stroke'] ?? 0);
    if (state['parked'] === true) return stroke >= parkedShare ? { ...state, parked: false } : state;
    return stroke >= 1 ? { ...state, parked: true, stroke: 0 } : state;
  },
  judge: (part, at, read) => judgedByFaster(part, inrushOf(at.state), read),
  loadEnds: () => ['53', '31'],
  poles: ({ params }) => [
    { id: 'slow', from: '53', to: '31', symbol: 'motor', label: `${params.draws} A` },
    { id: 'fast', from: '53b', to: '31', symbol: 'motor', label: `${params.fast} A` },
    { id: 'park', from: '53a', to: '53', symbol: 'contact' },
  ],
  faults: (part: Part<Held>) => [
    ...motorFaults(`${part.id}.slow`, 'slow', 'the slow speed of the wiper motor', part.params),
    ...motorFaults(`${part.id}.fast`, 'fast', 'the fast speed of the wiper motor', { ...part.params, draws: part.params.fast }),
    {
      subject: `${part.id}.park`,
      words: 'stuck closed',
      text: 'the park switch does not open at the rest: the wipers go on after switching off',
      weight: 0.5,
      source: practice,
      changes: () => [{ do: 'fix', element: 'park', ohm: park_ohm }],
    },
    {
      subject: `${part.id}.park`,
      words: 'open',
      text: 'the park switch never closes: the blades stop where they are',
      weight: 1,
      source: practice,
      changes: () => [{ do: 'series', element: 'park', ohm: Number.POSITIVE_INFINITY }],
    },
  ],
  access: () => accessOf(20, 'under the scuttle panel', 'the blades may move: hands clear', 120),
  timing: {
    rates: ({ params }, at, read) => {
      const share = Math.max(Math.abs(read.across('53', '31')), Math.abs(read.across('53b', '31')) * 1.4) / params.at;
      const turning = share > 0.15;
      return {
        inrush: inrushRate(fedOrNot(turning), spinUp_s, runDown_s),
        stroke: turning ? (share * (1 - inrushOf(at.state))) / Math.max(0.1, params.stroke) : 0,
      };
    },
  },
});

function speedLaw(params: Held, speed: 'slow' | 'fast', inrush: number) {
  return motorLaw(speed === 'slow' ? params.draws : params.fast, params.at, params['stall-share'], constantTorque, { inrush });
}

/** The brush with more volts is the one that drives. */
function judgedByFaster({ params }: Part<Held>, inrush: number, read: Reading): Judged {
  const speed = Math.abs(read.across('53b', '31')) > Math.abs(read.across('53', '31')) ? 'fast' : 'slow';
  const volts = read.across(speed === 'fast' ? '53b' : '53', '31');
  return judgedByLaw(speedLaw(params, speed, inrush), volts, read.amperes(speed), params.at, params['weak-below'], params['dead-below']);
}
