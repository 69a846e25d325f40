import type { Staircase } from './staircase.ts';

/** What is done before the first reading, in order, with what to mind at each. */
export type Act = { readonly does: string; readonly minutes: number; readonly cautions: readonly string[] };

/** Minutes to wait at least, whatever the circuit says. Makers' texts (secondary): over 100 mA in the first 2 to 5 min. */
const leastWait_min = 5;
/** Minutes to close latches, open fuse boxes, note codes (estimate). */
const prepare_min = 5;
const clamp_min = 3;

/** Minutes until everything sleeps: as the circuit plays it, with a margin of a quarter. */
export const waitMinutes = (stairs: Staircase | undefined): number =>
  Math.max(leastWait_min, Math.ceil((1.25 * (stairs?.asleepAfter_s ?? 0)) / 60));

/**
 * The measurement without waking anything. Sources: makers' drain texts (secondary) for the bypass, the fused first try
 * and the waits; common practice, no source, for the rest.
 *
 * @param electronics  false for a vehicle in which nothing goes to sleep: no codes to note, nothing to wake
 */
export function procedure(stairs: Staircase | undefined, electronics: boolean): readonly Act[] {
  const wait = waitMinutes(stairs);
  return [
    {
      does: `Charge the battery. Open the fuse boxes and covers now. ${electronics ? 'Close the door and bonnet latches with a screwdriver, windows down, key out and away from the vehicle; note the radio code.' : 'Key out, everything switched off.'}`,
      minutes: prepare_min,
      cautions: electronics ? ['taking a battery lead off loses settings and codes'] : [],
    },
    {
      does: 'Clamp round the minus cable, all of its wires: zeroed there, arrow noted.',
      minutes: clamp_min,
      cautions: ['a clamp drifts by 10 to 30 mA: turn it round and take the mean'],
    },
    {
      does: 'Without a clamp: lay a jumper with a 10 A fuse from the minus post to the cable first, then take the cable off; look after a minute whether its fuse holds; meter in the 10 A jack beside it, and only then the jumper off.',
      minutes: 8,
      cautions: [
        'never start, turn the key or open a door through the meter: close the jumper first, waking draws more than its fuse bears',
        'airbag: wait as long as the maker says after the battery is off, and leave its wiring alone',
        'an alarm may go off and lock the doors: keep the key outside',
      ],
    },
    {
      does: electronics
        ? `Wait ${wait} min, touch nothing: the current goes down in steps. Some vehicles take 20 to 75 min, a few two hours. Only the last step counts.`
        : `Wait ${wait} min for the figure to stand still.`,
      minutes: wait,
      cautions: [],
    },
  ];
}
