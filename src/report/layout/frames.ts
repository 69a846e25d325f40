import type { Columns } from './columns.ts';
import type { Heights } from './heightsOnSheet.ts';
import { sheet } from './heightsOnSheet.ts';
import { innerLevels } from './innerLevels.ts';
import type { Items } from './items.ts';
import type { Carried, Frame, PlacedPole, PlacedWire, Point } from './layout.ts';
import type { Nets, Piece } from './nets.ts';
import type { Rows } from './rows.ts';

/** Frames round the blocks, and the conductors inside them that tie pieces to a shared terminal. */
export function framed(
  items: Items,
  rows: Rows,
  columns: Columns,
  ys: Heights,
  poles: readonly PlacedPole[],
  xAt: (column: number) => number,
  nets: Nets,
): { frames: readonly Frame[]; inner: { wires: readonly PlacedWire[]; dots: readonly Point[] } } {
  const frames: Frame[] = [];
  const wires: PlacedWire[] = [];
  const dots: Point[] = [];
  for (const item of items.items) {
    const block = item.unit?.block;
    if (!block) continue;
    const row = rows.rowOf[item.pieces[0]!.index]!;
    const [top, bottom, y] = [ys.frameTop[row]!, ys.frameBottom[row]!, ys.rowY[row]!];
    const stands = item.pieces.map((p) => poles[p.index]!);
    const [left, right] = [Math.min(...stands.map((p) => p.x)), Math.max(...stands.map((p) => p.x))];
    const isTurnedAt = (p: Piece, terminal: string) =>
      ((nets.vertexOf(p.from) === nets.vertexOf(terminal)) === (p.sense === 1) ? 1 : -1) as 1 | -1;
    // Only contacts that one hand moves are linked; a module's outputs are not.
    const isSwitch = item.pieces.every((p) => p.symbol.role === 'contact');
    const contacts = isSwitch ? [...stands].sort((a, b) => a.x - b.x) : [];
    frames.push({
      part: block.part,
      isKey: block.isKey,
      box: { x: left - sheet.frame.side, y: top, width: right - left + 2 * sheet.frame.side, height: bottom - top },
      link:
        contacts.length > 1
          ? [
              [contacts[0]!.x, y],
              [contacts.at(-1)!.x, y],
            ]
          : undefined,
    });
    for (const [leads, edge, way] of [
      [item.tops, top, -1],
      [item.bottoms, bottom, 1],
    ] as const)
      for (const lead of leads) {
        const level = innerLevels(leads, columns).get(lead) ?? 0;
        const x = xAt(columns.leadAt.get(lead)!);
        // The shared conductor runs inside the frame, below the names of terminals at its lower edge.
        const inside = edge - way * (sheet.frame.inner * level + (way === -1 ? 13 : 16));
        const carried = (p: Piece): Carried => ({ element: p.element, sign: isTurnedAt(p, lead.terminal) });
        const add = (points: readonly Point[], members: readonly Piece[]) => {
          if (members.length > 0 && points[0]!.join() !== points.at(-1)!.join())
            wires.push({
              net: lead.net,
              points,
              from: lead.terminal,
              to: lead.terminal,
              wires: [],
              carries: members.map(carried),
              inside: block.part,
            });
        };
        const at = (p: Piece) => poles[p.index]!.x;
        const tip = (p: Piece) => y + way * (p.symbol.height / 2);
        if (lead.members.length === 1) {
          const p = lead.members[0]!;
          add(
            x === at(p)
              ? [
                  [x, edge],
                  [x, tip(p)],
                ]
              : [
                  [x, edge],
                  [x, inside],
                  [at(p), inside],
                  [at(p), tip(p)],
                ],
            [p],
          );
          continue;
        }
        add(
          [
            [x, edge],
            [x, inside],
          ],
          lead.members,
        );
        const xs = [...new Set([x, ...lead.members.map(at)])].sort((a, b) => a - b);
        const isCorner = (member: Piece) => at(member) !== x && (at(member) === xs[0] || at(member) === xs.at(-1));
        for (const p of lead.members)
          if (!isCorner(p))
            add(
              [
                [at(p), inside],
                [at(p), tip(p)],
              ],
              [p],
            );
        for (let k = 0; k + 1 < xs.length; k++) {
          const [a, b] = xs[k + 1]! <= x ? [xs[k + 1]!, xs[k]!] : [xs[k]!, xs[k + 1]!];
          const beyond = lead.members.filter((p) => (b < a ? at(p) <= b : at(p) >= b));
          const last = beyond.length === 1 && isCorner(beyond[0]!) ? beyond[0] : undefined;
          add(
            last
              ? [
                  [a, inside],
                  [b, inside],
                  [b, tip(last)],
                ]
              : [
                  [a, inside],
                  [b, inside],
                ],
            beyond,
          );
        }
        for (const at of xs) {
          const arms =
            Number(at > xs[0]!) + Number(at < xs.at(-1)!) + Number(at === x) + Number(lead.members.some((p) => poles[p.index]!.x === at));
          if (arms > 2) dots.push([at, inside]);
        }
      }
  }
  return { frames, inner: { wires, dots } };
}
