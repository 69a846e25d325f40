import { atRest, type Network } from '../solve/network.ts';
import { memberOf } from '../solve/reading.ts';
import { turnedSwitch } from '../solve/turnedSwitch.ts';
import type { Sector } from './keyChart.ts';

/** A contact of the key switch over the travel of the key, with whatever faults are in. */
export type ContactSectors = { readonly id: string; readonly ought: readonly Sector[]; readonly does: readonly Sector[] };

/** Degrees between two looks at a contact, and how finely an edge is then found. */
const stride = 1;
const fine = 0.02;

/**
 * Where each contact of the key switch is closed as the key is turned on from the first position, faults in: asked of
 * the switch itself, angle by angle, so that lost motion, dead sectors and welded contacts all show. A contact counts
 * as closed when its resistance is finite, however bad. Both are angles of the key, as seen at the lock.
 *
 * @param net      the circuit with its faults
 * @param healthy  the same circuit without: what ought to be
 */
export function keySectors(net: Network, healthy: Network): readonly ContactSectors[] {
  const does = closedSectors(net);
  const ought = net.changes.length === 0 ? does : closedSectors(healthy);
  return ought.map(({ id, sectors }) => ({ id, ought: sectors, does: does.find((d) => d.id === id)?.sectors ?? [] }));
}

function closedSectors(net: Network): readonly { readonly id: string; readonly sectors: readonly Sector[] }[] {
  const lock = turnedSwitch(net);
  if (!lock) return [];
  const member = memberOf(net, lock.part.id)!;
  const { contacts, positions } = lock.model;
  const angles = positions.map((p) => p.angle);
  const [least, most] = [Math.min(0, ...angles), Math.max(...angles) + 5];
  const rest = atRest(member.part, net.circuit.ambient);
  const closed = (angle: number): ReadonlySet<string> => {
    const list = member.elements({ ...rest, key: { angle, came: 'up', in: true } });
    return new Set(list.flatMap((e) => ('ohm' in e && 'from' in e && Number.isFinite(e.ohm) ? [e.id] : [])));
  };
  const looks: { angle: number; closed: ReadonlySet<string> }[] = [];
  for (let angle = least; angle <= most; angle += stride) looks.push({ angle, closed: closed(angle) });
  return contacts.map(({ id }) => {
    const element = `${member.part.id}.${id}`;
    const sectors: [number, number][] = [];
    for (const [k, look] of looks.entries()) {
      const before = looks[k - 1];
      const is = look.closed.has(element);
      const was = before?.closed.has(element) ?? false;
      const edge = before && is !== was ? edgeBetween(before.angle, look.angle, was, (a) => closed(a).has(element)) : look.angle;
      if (is && !was) sectors.push([edge, most]);
      else if (!is && was) sectors[sectors.length - 1]![1] = edge;
    }
    return { id, sectors };
  });
}

/** The angle at which a contact changes, to `fine` degrees and rounded to it. */
function edgeBetween(from: number, to: number, first: boolean, isClosed: (angle: number) => boolean): number {
  let [low, high] = [from, to];
  while (high - low > fine) {
    const middle = (low + high) / 2;
    if (isClosed(middle) === first) low = middle;
    else high = middle;
  }
  return Math.round((low + high) * 5) / 10;
}
