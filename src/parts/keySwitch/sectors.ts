import type { Contacts, ContactTable, Position, Sector } from './forms.ts';

/** How far the first and last sectors of the short form reach beyond the outermost detents, degrees: no key gets there. */
const beyond_deg = 15;

/**
 * Sectors from a position table, the short form: a contact that is closed in a position is closed from half-way to the
 * position before until half-way to the next, and runs through where both neighbours have it. So two contacts that
 * change between the same positions do so at the same angle; where the order matters, sectors have to be written.
 *
 * @param positions by rising angle
 */
export function sectorsFromTable(positions: readonly Position[], table: ContactTable): Contacts {
  const ids = [...new Set(positions.flatMap((p) => table[p.name] ?? []))];
  const edge = (k: number): number => {
    const [before, after] = [positions[k - 1], positions[k]];
    if (before && after) return (before.angle + after.angle) / 2;
    return before ? before.angle + beyond_deg : after!.angle - beyond_deg;
  };
  return Object.fromEntries(
    ids.map((id) => {
      const sectors: [number, number][] = [];
      for (const [k, p] of positions.entries()) {
        if (!table[p.name]?.includes(id)) continue;
        const last = sectors.at(-1);
        if (last && last[1] === edge(k)) last[1] = edge(k + 1);
        else sectors.push([edge(k), edge(k + 1)]);
      }
      return [id, sectors];
    }),
  );
}

/** The sectors without the open stretch between two angles; the ends of what is left still belong to it. */
export function cutOut(sectors: readonly Sector[], [from, to]: Sector): readonly Sector[] {
  return sectors.flatMap(([a, b]): readonly Sector[] => {
    if (b <= from || a >= to) return [[a, b]];
    const left: Sector[] = a < from ? [[a, from]] : [];
    return b > to ? [...left, [to, b]] : left;
  });
}

/**
 * Every sector turned by some degrees; a positive shift closes and opens later on the way up.
 */
export function shifted(sectors: readonly Sector[], degrees: number): readonly Sector[] {
  return sectors.map(([from, to]) => [from + degrees, to + degrees]);
}

export const covers = (sectors: readonly Sector[], angle: number): boolean => sectors.some(([from, to]) => angle >= from && angle <= to);
