import type { Columns } from './columns.ts';
import type { Lead } from './items.ts';

/** Levels, from the frame inwards, of the conductors that tie pieces inside a frame to a shared terminal: those that overlap have different ones. */
export function innerLevels(leads: readonly Lead[], columns: Columns): ReadonlyMap<Lead, number> {
  const levels = new Map<Lead, number>();
  const placed: { from: number; to: number; level: number }[] = [];
  for (const lead of leads) {
    if (lead.members.length < 2) continue;
    const at = [columns.leadAt.get(lead)!, ...lead.members.map((p) => columns.columnOf[p.index]!)];
    const [from, to] = [Math.min(...at), Math.max(...at)];
    let level = 0;
    for (const p of placed) if (p.from <= to && from <= p.to) level = Math.max(level, p.level + 1);
    placed.push({ from, to, level });
    levels.set(lead, level);
  }
  return levels;
}

/** How many levels there are, at least 0. */
export const levelCount = (levels: ReadonlyMap<Lead, number>): number => Math.max(-1, ...levels.values()) + 1;
