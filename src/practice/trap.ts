/** A misuse: what would happen, why, and whether safety stops the exercise's marks there. */
export type Trap = {
  readonly id: 'live-ohms' | 'ampere-jack' | 'unfused-bridge' | 'ammeter-overload' | 'bridge-short';
  /** True for acts that an instructor stops at once. */
  readonly unsafe: boolean;
  readonly happens: string;
  readonly why: string;
  readonly source: string;
};

const cp = 'common practice, no source';

/** Sources: addresses of the published pages from which the rule was read. */
export const traps: Readonly<Record<Trap['id'], Trap>> = {
  'live-ohms': {
    id: 'live-ohms',
    unsafe: true,
    happens: 'On a live circuit the ohmmeter shows nonsense, and may be damaged. It was not put on.',
    why: 'It drives its own small current and takes the volts for its own. Disconnect the battery first, then one side of the part.',
    source: 'https://charm.ecrasystems.com/Acura/1992/NSX%20V6-3.0L%20DOHC/',
  },
  'ampere-jack': {
    id: 'ampere-jack',
    unsafe: true,
    happens:
      'With the lead in the ampere jack the meter is a piece of wire: across these points it would bang and blow its fuse. It was not put on.',
    why: 'The 10 A jack has about 0.03 Ω. Put the lead back to volts as soon as a current has been read.',
    source: cp,
  },
  'unfused-bridge': {
    id: 'unfused-bridge',
    unsafe: true,
    happens: 'A lead without a fuse on a wrong terminal glows before anything else does. It was not put on.',
    why: 'Only a fused jumper, 5 A for a first try, never past a load.',
    source: 'https://www.toyotaguru.us/engine-control-systems/jumper-wire-advantages-and-disadvantages.html',
  },
  'ammeter-overload': {
    id: 'ammeter-overload',
    unsafe: false,
    happens: 'More than 10 A: the fuse of the ampere range has blown. A new one is fitted.',
    why: 'A clamp reads large currents without being in their way.',
    source: cp,
  },
  'bridge-short': {
    id: 'bridge-short',
    unsafe: false,
    happens: 'The fuse of the jumper blew: more than 10 A went through it. The bridge is off again.',
    why: 'It was joined past the load, or onto a short. A bridge goes between two points of the same feed.',
    source: 'https://myvehicle.help/Acura/1995/NSX%20V6-3.0L%20DOHC/Repair%20and%20Diagnosis/Tools%20and%20Equipment/Jumper%20Wire',
  },
};
