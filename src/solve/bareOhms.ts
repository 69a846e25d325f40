import type { Circuit } from '../circuit/circuit.ts';
import { definePart, type KeyModel, type Part } from '../circuit/part.ts';
import { type KeyPlace, untouched } from '../circuit/scene.ts';
import { network, type PartChange } from './network.ts';
import { amperesThrough, operatingPoint } from './operatingPoint.ts';
import { turnedSwitch } from './turnedSwitch.ts';

/** An ohmmeter drives little: 0.5 V behind 1 kΩ (typical of the ohm ranges of workshop meters, estimate). */
const open_V = 0.5;
const inner_ohm = 1000;

const ohmmeter = definePart({
  kind: 'ohmmeter',
  title: 'ohmmeter',
  about: 'drives a small current and reads the volts that are left',
  letter: 'P',
  parameters: {},
  terminals: () => [{ name: '+' }, { name: '-' }],
  elements: () => [{ id: '', plus: '+', minus: '-', volt: open_V, ohm: inner_ohm }],
  supply: () => ['+', '-'],
  poles: () => [],
  faults: () => [],
  access: () => ({ minutes: 0, where: 'in the hand', source: 'estimate' }),
});

/**
 * Ohms between two terminals of a part that is off the vehicle, as an ohmmeter reads them; `Infinity` when nothing
 * joins them.
 *
 * @param turned  where a switch is turned to by hand: degrees of switch travel, or a setting
 */
export function bareOhms(
  part: Part,
  changes: readonly PartChange[],
  at: string,
  to: string,
  turned: { angle?: number; setting?: string } = {},
): number {
  const meter: Part = { id: '~meter', kind: ohmmeter, params: {}, given: new Set(), isLoad: false };
  const bench: Circuit = {
    title: 'bench',
    ambient: 20,
    cautions: [],
    parts: new Map([
      [meter.id, meter],
      [part.id, part],
    ]),
    attached: [
      ['~meter.+', at],
      ['~meter.-', to],
    ],
  };
  const own = changes.filter((c) => c.part === part.id && c.change.do !== 'attach');
  const net = network(bench, own);
  const key = turned.angle === undefined ? undefined : keyThatTurns(turnedSwitch(net)?.model, turned.angle);
  const hand = turned.setting === undefined ? {} : { [part.id]: turned.setting };
  const solved = operatingPoint(net, { ...untouched, ...(key && { key }), hand });
  const ampere = Math.abs(amperesThrough(solved, '~meter'));
  return ampere < 1e-12 ? Number.POSITIVE_INFINITY : open_V / ampere - inner_ohm;
}

/** How far a switch may be from its key, and how finely the key is moved to bring it where the hand has it, degrees (estimates). */
const farthest_deg = 45;
const step_deg = 0.25;

/** By hand the switch itself is turned, without its lock: the place of a key that would leave it there, whatever lags in between; the nearest of equals. */
function keyThatTurns(model: KeyModel | undefined, angle: number): KeyPlace {
  const place = (at: number): KeyPlace => ({ angle: at, came: 'back', in: true });
  if (!model) return place(angle);
  const off = (at: number) => Math.abs(model.switchAngle(place(at)) - angle);
  let best = angle;
  for (let away = step_deg; off(best) > 0 && away <= farthest_deg; away += step_deg)
    for (const at of [angle - away, angle + away]) if (off(at) < off(best)) best = at;
  return place(best);
}
