import type { Writable } from '../../circuit/edit/written.ts';
import { sectorsFromTable } from '../../parts/keySwitch/sectors.ts';

/** A position of a key switch as a form holds it. */
export type PositionRow = {
  readonly name: string;
  readonly angle: number;
  readonly keyOut?: boolean | undefined;
  readonly springsTo?: string | undefined;
};

/** What a position table as printed says: which terminals are joined with each other in a position. `15+54` in one group, or `30-15` as a pair. */
export type JoinedIn = Readonly<Record<string, readonly (readonly string[])[]>>;

/** Positions as a circuit file writes them. */
export function positionsHeld(rows: readonly PositionRow[]): Writable {
  return Object.fromEntries(
    rows.map(({ name, angle, keyOut, springsTo }) => [
      name,
      {
        at: `${angle}°`,
        ...(keyOut === true && { 'key-out': 'yes' }),
        ...(springsTo !== undefined && springsTo !== '' && { 'springs-to': springsTo }),
      },
    ]),
  );
}

/**
 * A key switch from a filled position table. Every group of joined terminals becomes pairs with its feed, so that the
 * same pair stands in each position: the feed is the terminal that is joined in most positions.
 */
export function switchFromTable(rows: readonly PositionRow[], joined: JoinedIn): { readonly [key: string]: Writable | undefined } {
  const hub = hubOf(rows.flatMap((r) => joined[r.name] ?? []));
  return {
    kind: 'key-switch',
    positions: positionsHeld(rows),
    table: Object.fromEntries(rows.map(({ name }) => [name, (joined[name] ?? []).flatMap((group) => pairsOf(group, hub))])),
  };
}

/** How often each terminal is joined with others. */
function hubOf(groups: readonly (readonly string[])[]): ReadonlyMap<string, number> {
  const count = new Map<string, number>();
  for (const group of groups) if (group.length > 1) for (const t of group) count.set(t, (count.get(t) ?? 0) + group.length - 1);
  return count;
}

/** Pairs that join a whole group: each terminal with the one that is joined most often; ties keep the order of the group. */
function pairsOf(group: readonly string[], hub: ReadonlyMap<string, number>): readonly string[] {
  const own = [...new Set(group)];
  if (own.length < 2) return [];
  const centre = own.reduce((a, b) => ((hub.get(b) ?? 0) > (hub.get(a) ?? 0) ? b : a));
  return own.filter((t) => t !== centre).map((t) => `${centre}-${t}`);
}

/** What the meter said between two terminals with the switch in one position, on the bench. */
export type BenchSaid = 'joined' | 'open' | 'not sure';
export type BenchReading = { readonly position: string; readonly a: string; readonly b: string; readonly said: BenchSaid };

export type Unclear = { readonly position: string; readonly a: string; readonly b: string; readonly why: string };

/** Every pair of terminals in every position, in the order in which a person turns the switch. */
export function benchPlan(terminals: readonly string[], rows: readonly PositionRow[]): readonly Omit<BenchReading, 'said'>[] {
  return rows.flatMap(({ name }) => terminals.flatMap((a, k) => terminals.slice(k + 1).map((b) => ({ position: name, a, b }))));
}

/**
 * Key switch from continuity readings of a bare switch. Joined terminals form groups; each contact's sectors reach from
 * half-way to the position before until half-way to the next, since nothing was read between the detents. A pair that
 * was not sure or not read, and is not settled by others (joined through a third terminal, or open because a third is
 * open against one of them), is unclear; so is a pair read open although both are joined with a third.
 */
export function switchFromBench(
  rows: readonly PositionRow[],
  terminals: readonly string[],
  readings: readonly BenchReading[],
): { readonly held: { readonly [key: string]: Writable | undefined }; readonly unclear: readonly Unclear[] } {
  const unclear: Unclear[] = [];
  const joined: Record<string, readonly (readonly string[])[]> = {};
  for (const { name } of rows) {
    const here = readings.filter((r) => r.position === name);
    const root = new Map(terminals.map((t) => [t, t]));
    const rootOf = (t: string): string => (root.get(t) === t || !root.has(t) ? t : rootOf(root.get(t)!));
    for (const { a, b, said } of here) if (said === 'joined') root.set(rootOf(a), rootOf(b));
    const saidOf = (a: string, b: string) => here.find((r) => (r.a === a && r.b === b) || (r.a === b && r.b === a))?.said;
    const groups = [...new Set(terminals.map(rootOf))].map((r) => terminals.filter((t) => rootOf(t) === r));
    const areOpen = (g: readonly string[], h: readonly string[]) => g.some((a) => h.some((b) => saidOf(a, b) === 'open'));
    for (const { a, b } of benchPlan(terminals, [{ name, angle: 0 }])) {
      const said = saidOf(a, b);
      const same = rootOf(a) === rootOf(b);
      if (said === 'open' && same)
        unclear.push({
          position: name,
          a,
          b,
          why: 'read open, and yet both are joined with a third terminal: read again, with the leads firm',
        });
      else if (said !== 'joined' && said !== 'open' && !same) {
        const [g, h] = [groups.find((x) => x.includes(a))!, groups.find((x) => x.includes(b))!];
        if (!areOpen(g, h))
          unclear.push({
            position: name,
            a,
            b,
            why: said === undefined ? 'not read' : 'the meter was not sure: clean the terminals, move the switch a little',
          });
      }
    }
    joined[name] = groups.filter((g) => g.length > 1);
  }
  const { table } = switchFromTable(rows, joined) as { table: Readonly<Record<string, readonly string[]>> };
  return { held: { kind: 'key-switch', positions: positionsHeld(rows), contacts: sectorsHeld(rows, table) }, unclear };
}

/** The pairs of a position table as sectors, as the short form means them. */
function sectorsHeld(rows: readonly PositionRow[], table: Readonly<Record<string, readonly string[]>>): Writable {
  const positions = [...rows]
    .sort((a, b) => a.angle - b.angle)
    .map(({ name, angle }) => ({ name, angle, keyOut: false, repeatLock: false }));
  return Object.fromEntries(
    Object.entries(sectorsFromTable(positions, table)).map(([pair, sectors]) => [pair, sectors.map(([from, to]) => `${from}°..${to}°`)]),
  );
}
