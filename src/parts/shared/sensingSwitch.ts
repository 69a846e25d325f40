import { definePart, type PartKind } from '../../circuit/part.ts';
import { accessOf } from './access.ts';
import { type ContactWeights, contactFaults } from './contactFaults.ts';
import { shortToGround } from './shortFaults.ts';
import { estimate, practice } from './sources.ts';
import { oneAndTwo } from './terminals.ts';

/** Two states that something else than a hand on a switch brings about; the first is how a parked vehicle stands. */
export type Sensed = {
  readonly kind: string;
  readonly title: string;
  readonly about: string;
  readonly settings: readonly [rest: string, other: string];
  readonly closedWhen: string;
  /** Its symbol where a plain contact would not say what works it. */
  readonly symbol?: string;
  /** Minutes to reach it, and where that is. */
  readonly minutes: number;
  readonly where: string;
  readonly caution?: string;
  /** Minutes until it is in its other state, where nobody can just put it there. Estimate. */
  readonly setting_min?: number;
};

/** Small contacts in dirt and weather: films and breaks more often than welding. Estimate. */
const weights: ContactWeights = { open: 1.5, resistance: 1, comesAndGoes: 1.5, stuck: 1 };

/** A switch that senses: door, brake pedal, gear lever. It has one contact, closed in one of its two states. */
export function sensingSwitch(sensed: Sensed): PartKind {
  const [rest, other] = sensed.settings;
  return definePart({
    kind: sensed.kind,
    title: sensed.title,
    about: sensed.about,
    letter: 'S',
    parameters: {
      'closed-when': {
        as: 'word',
        words: [rest, other],
        about: 'the state in which its contact is closed',
        default: sensed.closedWhen,
        source: practice,
      },
      contact: {
        as: 'quantity',
        dimension: 'resistance',
        about: 'its closed contact',
        default: 0.01,
        min: 1e-9,
        max: 1e3,
        source: estimate,
      },
    },
    terminals: () => oneAndTwo,
    settings: () => [rest, other],
    ...(sensed.setting_min !== undefined && { setting_min: sensed.setting_min }),
    aliases: { on: other, off: rest },
    varies: ['hand'],
    elements: ({ params }, at) => [
      { id: '', from: '1', to: '2', ohm: at.setting === params['closed-when'] ? params.contact : Number.POSITIVE_INFINITY },
    ],
    poles: () => [{ id: '', from: '1', to: '2', symbol: sensed.symbol ?? 'contact' }],
    faults: (part) => [
      ...contactFaults(part.id, '', '', 'the contact', part.params.contact, weights, estimate),
      shortToGround(part.id, `${part.id}.1`, 'the switch', 0.2, estimate),
    ],
    access: () => accessOf(sensed.minutes, sensed.where, sensed.caution),
  });
}
