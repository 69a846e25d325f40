import type { GroundBar, PlacedPole, PlacedWire, Point } from './layout.ts';
import type { Nets, Piece } from './nets.ts';

export type Hung = {
  readonly poles: readonly PlacedPole[];
  readonly wires: readonly PlacedWire[];
  readonly bars: readonly GroundBar[];
  readonly bottom: number;
};

/** Half of a bar that is drawn for one piece alone. */
const half_px = 22;

/**
 * Pieces between two ground bars (an isolator in a ground cable, a suppressor from block to body): each hangs under the
 * bar of its first end, and a line leads from its foot up to the other bar.
 *
 * @param top  foot of the lowest bar's sign and name
 */
export function hungBetween(nets: Nets, bars: readonly GroundBar[], left: number, top: number): Hung {
  const poles: PlacedPole[] = [];
  const wires: PlacedWire[] = [];
  const added: GroundBar[] = [];
  let y = top;
  for (const piece of nets.hanging) {
    const { height, left: reachLeft, right: reachRight } = piece.symbol;
    const [a, b] = [nets.netOf(piece.from), nets.netOf(piece.to)];
    const barOf = (net: number) => [...bars, ...added].find((bar) => bar.terminal === nets.nets[net]!.bar?.vertex);
    const own = (net: number, x: number, at: number) => {
      const { bar } = nets.nets[net]!;
      const made: GroundBar = {
        id: bar!.id,
        ...(bar!.part && { part: bar!.part.id }),
        terminal: bar!.vertex,
        x1: x - half_px,
        x2: x + half_px,
        y: at,
        pieces: [[x - half_px, x + half_px]],
        ...(bar!.isGrounded && { sign: [x, at + 12] as const }),
        goesOnLeft: false,
        goesOnRight: false,
      };
      added.push(made);
      return made;
    };
    const over = barOf(a) ?? own(a, left, y);
    const x = over.x2 - 4;
    const middle = Math.max(y, over.y + 40) + height / 2;
    const foot = middle + height / 2 + 14;
    const other = barOf(b) ?? own(b, x, foot);
    const level = other.y === foot ? foot : foot + 8;
    const way: Point[] =
      other.y === foot
        ? [
            [x, middle + height / 2],
            [x, foot],
          ]
        : [
            [x, middle + height / 2],
            [x, level],
            [other.x1 + 4, level],
            [other.x1 + 4, other.y],
          ];
    poles.push({
      id: piece.id,
      part: piece.part.id,
      element: piece.element,
      symbol: piece.pole.symbol,
      x,
      y: middle,
      turned: false,
      top: piece.from,
      bottom: piece.to,
      box: { x: x - reachLeft, y: middle - height / 2, width: reachLeft + reachRight, height },
      isLoad: piece.part.isLoad,
    });
    const carries = [{ element: piece.element, sign: piece.sense }] as const;
    const upper: readonly Point[] = [
      [x, over.y],
      [x, middle - height / 2],
    ];
    wires.push({ net: a, points: upper, from: over.terminal, to: nets.vertexOf(piece.from), wires: wiresAt(nets, a, piece.from), carries });
    wires.push({ net: b, points: way, from: nets.vertexOf(piece.to), to: other.terminal, wires: wiresAt(nets, b, piece.to), carries });
    y = level + (other.y === foot ? 44 : 14);
  }
  return { poles, wires, bars: added, bottom: y };
}

function wiresAt(nets: Nets, net: number, terminal: string): readonly string[] {
  const vertex = nets.vertexOf(terminal);
  return nets.nets[net]!.edges.filter((e) => !e.isPin && (e.from === vertex || e.to === vertex)).map((e) => e.part);
}

/** A piece whose two ends are two different ground bars. */
export function isBetweenBars(piece: Pick<Piece, 'from' | 'to'>, nets: Pick<Nets, 'nets' | 'netOf'>): boolean {
  const [a, b] = [nets.netOf(piece.from), nets.netOf(piece.to)];
  return a !== b && nets.nets[a]!.bar !== undefined && nets.nets[b]!.bar !== undefined;
}
