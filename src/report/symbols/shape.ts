/** One stroke of a symbol, in px about the middle of the symbol. Colours are names of tokens, never values. */
export type Shape =
  | {
      readonly draw: 'path';
      readonly d: string;
      readonly fill: Ink;
      /** Line width, 0 for none. */
      readonly line: number;
      readonly dash?: string;
      /** Only drawn while the contact stands like this. */
      readonly when?: Stand;
    }
  | {
      readonly draw: 'circle';
      readonly x: number;
      readonly y: number;
      readonly r: number;
      readonly fill: Ink;
      readonly line: number;
      readonly when?: Stand;
    }
  | {
      readonly draw: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly size: number;
      readonly weight: 500 | 600 | 700;
      readonly when?: Stand;
    };

export type Ink = 'none' | 'ink' | 'sheet';
export type Stand = 'open' | 'closed';

/** What a piece does in the drawing; the layout places by this and by nothing else. */
export type Role =
  /** Drawn as the wire itself. */
  | 'wire'
  /** A small mark on a wire. */
  | 'pin'
  /** A bar at the bottom. */
  | 'ground'
  | 'supply'
  | 'protect'
  | 'contact'
  | 'series'
  | 'load';

/** How a piece is drawn, upright, supply on top. Wires meet it at (0, -height/2) and (0, height/2). */
export type PartSymbol = {
  readonly role: Role;
  /** Turned over when it is fed from below. */
  readonly isPolar?: true;
  readonly height: number;
  /** How far it reaches left and right of its middle line, px, in every state. */
  readonly left: number;
  readonly right: number;
  readonly shapes: readonly Shape[];
};

/** A line of 2 px, which is the weight of every symbol. */
export function stroke(d: string, more: { line?: number; fill?: Ink; dash?: string; when?: Stand } = {}): Shape {
  return {
    draw: 'path',
    d,
    fill: more.fill ?? 'none',
    line: more.line ?? 2,
    ...(more.dash && { dash: more.dash }),
    ...(more.when && { when: more.when }),
  };
}

/** An upright box of paper colour, so that nothing behind it shows through. */
export function box(width: number, height: number): Shape {
  return stroke(`M${-width / 2} ${-height / 2}h${width}v${height}h${-width}Z`, { fill: 'sheet' });
}

export function ring(r: number, x = 0, y = 0): Shape {
  return { draw: 'circle', x, y, r, fill: 'sheet', line: 2 };
}

export function dot(r: number, x = 0, y = 0): Shape {
  return { draw: 'circle', x, y, r, fill: 'ink', line: 0 };
}

export function letter(text: string, y = 6, size = 17, x = 0): Shape {
  return { draw: 'text', x, y, text, size, weight: 600 };
}
