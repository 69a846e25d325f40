import type { KeyModel } from './part.ts';

/** A stretch of key travel in which the same contacts are closed. */
export type KeyStretch = {
  /** `ON`, or `between ON and START`, with ` 1`, ` 2` … when the contacts change more than once on the way. */
  readonly name: string;
  /** Detent angle, or the middle of the stretch, degrees of switch travel. */
  readonly angle: number;
  /** Where the key stands, turned up from below, when the switch is there; a lock with lost motion is ahead of its switch. A detent is the key's own. */
  readonly keyAngle: number;
  readonly from: number;
  readonly to: number;
  /** Contacts closed in it, by id. */
  readonly closed: readonly string[];
  readonly detent: boolean;
};

/** Contacts that ought to be closed where the switch stands at this angle. Both ends of a sector belong to it. */
export function closedAt(model: KeyModel, angle: number): readonly string[] {
  return model.contacts.filter((c) => c.sectors.some(([from, to]) => angle >= from && angle <= to)).map((c) => c.id);
}

/**
 * All stretches of the travel in order: every detent, and between two detents every stretch whose set of closed
 * contacts is that of neither neighbour. A stretch in which the set merely continues from a detent belongs to that
 * detent, however long it is.
 */
export function keyStretches(model: KeyModel): readonly KeyStretch[] {
  const known = stretches.get(model);
  if (known) return known;
  const made = stretchesOf(model);
  stretches.set(model, made);
  return made;
}
const stretches = new WeakMap<KeyModel, readonly KeyStretch[]>();

function stretchesOf(model: KeyModel): readonly KeyStretch[] {
  const detents = [...model.positions].sort((a, b) => a.angle - b.angle);
  const edges = [...new Set(model.contacts.flatMap((c) => c.sectors.flat()))].sort((a, b) => a - b);
  const found: KeyStretch[] = [];
  for (const [k, here] of detents.entries()) {
    found.push({
      name: here.name,
      angle: here.angle,
      keyAngle: here.angle,
      from: here.angle,
      to: here.angle,
      closed: closedAt(model, here.angle),
      detent: true,
    });
    const next = detents[k + 1];
    if (!next) break;
    const cuts = [here.angle, ...edges.filter((e) => e > here.angle && e < next.angle), next.angle];
    const pieces: { from: number; to: number; closed: readonly string[] }[] = [];
    for (let c = 0; c + 1 < cuts.length; c++) {
      const [from, to] = [cuts[c]!, cuts[c + 1]!];
      const closed = closedAt(model, (from + to) / 2);
      const last = pieces.at(-1);
      if (last && same(last.closed, closed)) pieces[pieces.length - 1] = { from: last.from, to, closed };
      else pieces.push({ from, to, closed });
    }
    const own = pieces.filter(
      (p, i) =>
        !(i === 0 && same(p.closed, closedAt(model, here.angle))) &&
        !(i === pieces.length - 1 && same(p.closed, closedAt(model, next.angle))),
    );
    const base = `between ${here.name} and ${next.name}`;
    for (const [i, p] of own.entries())
      found.push({
        ...p,
        name: own.length === 1 ? base : `${base} ${i + 1}`,
        angle: (p.from + p.to) / 2,
        keyAngle: keyAngleFor(model, (p.from + p.to) / 2),
        detent: false,
      });
  }
  return found;
}

/** Angle of the key, turned up from below, at which the switch has come to this angle. */
export function keyAngleFor(model: KeyModel, switchAngle: number): number {
  const last = Math.max(...model.positions.map((p) => p.angle));
  for (let key = switchAngle; key <= last; key += 0.25)
    if (model.switchAngle({ angle: key, came: 'up', in: true }) >= switchAngle) return key;
  return switchAngle;
}

const same = (a: readonly string[], b: readonly string[]) => a.length === b.length && a.every((x, i) => x === b[i]);
