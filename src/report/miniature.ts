import type { Layout, Point } from './layout/layout.ts';

/** A drawing made small: paths alone, whole px, no letters. */
export type Miniature = {
  readonly width: number;
  readonly height: number;
  readonly wires: string;
  readonly pieces: string;
  /** Pieces that are loads, to be drawn solid. */
  readonly loads: string;
  readonly bars: string;
  /** The box of the key switch. */
  readonly key: string;
};

/**
 * The same layout as the full drawing, with every piece as a box. Whole px and one path for each sort of thing keep it to
 * a few kB, since ten of them are shown side by side.
 */
export function miniatureOf(layout: Layout): Miniature {
  const loads = layout.poles.filter((p) => p.isLoad);
  const others = layout.poles.filter((p) => !p.isLoad);
  return {
    width: Math.ceil(layout.width),
    height: Math.ceil(layout.height),
    wires: layout.wires.map((w) => runOf(w.points)).join(''),
    pieces: others.map((p) => boxOf(p.box)).join(''),
    loads: loads.map((p) => boxOf(p.box)).join(''),
    bars: layout.bars.flatMap((b) => b.pieces.map(([x1, x2]) => `M${whole(x1)} ${whole(b.y)}H${whole(x2)}`)).join(''),
    key: layout.frames
      .filter((f) => f.isKey)
      .map((f) => boxOf(f.box))
      .join(''),
  };
}

const whole = Math.round;

function runOf(points: readonly Point[]): string {
  let [x, y] = [Number.NaN, Number.NaN];
  let d = '';
  for (const point of points) {
    const [nextX, nextY] = [whole(point[0]), whole(point[1])];
    if (d === '') d = `M${nextX} ${nextY}`;
    else if (nextX === x && nextY === y) continue;
    else d += nextY === y ? `H${nextX}` : nextX === x ? `V${nextY}` : `L${nextX} ${nextY}`;
    [x, y] = [nextX, nextY];
  }
  return d;
}

function boxOf({ x, y, width, height }: { x: number; y: number; width: number; height: number }): string {
  return `M${whole(x)} ${whole(y)}h${whole(width)}v${whole(height)}h-${whole(width)}z`;
}
