import type { Box, LabelRole, Point } from './layout.ts';

/** A line of a label. */
export type Line = {
  readonly text: string;
  readonly role: LabelRole;
  readonly of: string;
  readonly size: number;
  readonly weight: 500 | 700;
};
/** Where a label would stand: its side nearest to the thing at x, its middle at y. */
export type Spot = { readonly x: number; readonly y: number; readonly side: 'right' | 'left' };
/** From the middle of a wire to a label beside it: half the widest ribbon and some air. */
export const clear = 8;
export const lineHeight = (l: Line) => l.size + 2;
export const inside = (b: Box, [x, y]: Point) => x >= b.x && x <= b.x + b.width && y >= b.y && y <= b.y + b.height;

export function boxAt({ x, y, side }: Spot, width: number, height: number): Box {
  return { x: side === 'right' ? x : x - width, y: y - height / 2, width, height };
}

/** `15` of `S1.15`. */
export const local = (terminal: string) => terminal.slice(terminal.lastIndexOf('.') + 1);
/** `30–87`; inner points of a part are left out. */
export function terminalsOf(top: string, bottom: string): string {
  const names = [local(top), local(bottom)].filter((t) => !t.startsWith('~'));
  return names.join('–');
}
