import type { Box, Layout } from './layout.ts';

/** Widest ribbon with its edges, px: labels keep clear of it whatever flows. */
const ribbon = 11.4;

/** Boxes that nothing further may lie on, in strips of 64 px so that a question looks at few of them. */
export class Taken {
  private readonly strips = new Map<number, Box[]>();
  constructor(bare: Omit<Layout, 'labels' | 'dropped'>) {
    for (const p of bare.poles) this.add(p.box);
    for (const p of bare.pins) this.add({ x: p.x - 7, y: p.y - 7, width: 14, height: 14 });
    for (const w of bare.wires)
      for (let k = 0; k + 1 < w.points.length; k++) {
        const [[x0, y0], [x1, y1]] = [w.points[k]!, w.points[k + 1]!];
        this.add(around(x0, y0, x1, y1, ribbon / 2));
      }
    for (const b of bare.bars) {
      this.add(around(b.x1, b.y, b.x2, b.y, 3));
      if (b.sign) this.add({ x: b.sign[0] - 14, y: b.y, width: 28, height: 26 });
    }
    for (const { box } of bare.frames)
      for (const [x0, y0, x1, y1] of [
        [box.x, box.y, box.x + box.width, box.y],
        [box.x, box.y + box.height, box.x + box.width, box.y + box.height],
        [box.x, box.y, box.x, box.y + box.height],
        [box.x + box.width, box.y, box.x + box.width, box.y + box.height],
      ] as const)
        this.add(around(x0, y0, x1, y1, 1));
  }
  isFree(box: Box): boolean {
    for (let s = strip(box.x); s <= strip(box.x + box.width); s++) if (this.strips.get(s)?.some((b) => meet(b, box))) return false;
    return true;
  }
  add(box: Box): void {
    for (let s = strip(box.x); s <= strip(box.x + box.width); s++) {
      const list = this.strips.get(s);
      if (list) list.push(box);
      else this.strips.set(s, [box]);
    }
  }
}

const strip = (x: number) => Math.floor(x / 64);

export function meet(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

function around(x0: number, y0: number, x1: number, y1: number, by: number): Box {
  return { x: Math.min(x0, x1) - by, y: Math.min(y0, y1) - by, width: Math.abs(x1 - x0) + 2 * by, height: Math.abs(y1 - y0) + 2 * by };
}
