import type { Sample } from '../play/moment.ts';
import type { Played } from '../play/play.ts';
import { voltsAt } from '../solve/operatingPoint.ts';
import { keyWord } from './playKey.ts';
import type { PlayView } from './playView.ts';

/**
 * A played story as outsiders read it: a sample before and after everything that happens, and the events. Seconds,
 * volts, amperes, degrees, 1/min; null = floating.
 */
export function playData({ samples, events, end, bound }: Played, view: PlayView, faults: readonly string[]) {
  const positions = view.key?.positions ?? [];
  const keyOf = ({ key }: Sample) => (key === undefined ? null : key.in ? keyWord(key.angle, positions) : 'key out');
  return {
    circuit: view.title,
    faults,
    samples: samples.map((s) => ({
      t: s.t,
      key: keyOf(s),
      angle: s.key?.angle ?? null,
      engine: s.engine === '' ? null : s.engine,
      speed: s.speed,
      loads: Object.fromEntries(s.loads.map(({ id, verdict, volts, amperes }) => [id, { verdict, volts, amperes }])),
      ...(view.terminals.length > 0 && {
        terminals: Object.fromEntries(view.terminals.map(({ terminal }) => [terminal, voltsAt(s.at, terminal) ?? null])),
      }),
    })),
    events,
    steps: view.steps,
    charge: Object.fromEntries(view.supplies.flatMap(({ id, charge }) => (charge === undefined ? [] : [[id, charge]]))),
    seconds: end.t,
    bound,
    ...(view.endedBy && { endedBy: view.endedBy }),
  };
}
