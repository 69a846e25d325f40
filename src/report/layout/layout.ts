/** A place on the drawing, px from its upper left corner, x to the right, y down. */
export type Point = readonly [x: number, y: number];
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** A two-terminal piece of a part, upright about its middle. */
export type PlacedPole = {
  /** Unique: `F3`, `S1.30-15`. */
  readonly id: string;
  readonly part: string;
  /** Global id of the element whose current and whose stand it shows. */
  readonly element: string;
  readonly symbol: string;
  readonly x: number;
  readonly y: number;
  /** Drawn upside down (mirrored): a polar symbol that is fed from below. */
  readonly turned: boolean;
  /** Global terminals above and below. */
  readonly top: string;
  readonly bottom: string;
  /** What the symbol covers. */
  readonly box: Box;
  readonly isLoad: boolean;
};

/** An element whose current runs along a stretch; `sign` is +1 where the current counted from its first end to its second flows from the first point to the last. */
export type Carried = { readonly element: string; readonly sign: 1 | -1 };

/** A stretch of conductor with right angles only, between two joints, terminals or pins. */
export type PlacedWire = {
  /** Stretches of one net are electrically one but for the drop along their wires. */
  readonly net: number;
  readonly points: readonly Point[];
  /** Terminals whose volts stand at its first and last point. */
  readonly from: string;
  readonly to: string;
  /** Ids of the wires that it shows; empty inside a part. */
  readonly wires: readonly string[];
  readonly carries: readonly Carried[];
  /** Part whose inner conductor it is. */
  readonly inside?: string;
};

/** A connector's pin on a wire. */
export type PlacedPin = {
  readonly id: string;
  readonly part: string;
  readonly x: number;
  readonly y: number;
  readonly flat: boolean;
};

/** Where one wire passes over another: the lower one is broken for a gap. Indices into `wires`. */
export type Crossing = { readonly x: number; readonly y: number; readonly over: number; readonly under: number };

/** What gathers the returns of its tracks: a ground point, the body, the block, or the minus of a supply. */
export type GroundBar = {
  readonly id: string;
  readonly part?: string;
  readonly terminal: string;
  readonly x1: number;
  readonly x2: number;
  readonly y: number;
  /** What is drawn of it: it is broken where a wire of another net passes. */
  readonly pieces: readonly (readonly [from: number, to: number])[];
  /** Middle of its ground sign; absent for a return that is not grounded. */
  readonly sign?: Point;
  /** True when the same ground point has another bar on that side. */
  readonly goesOnLeft: boolean;
  readonly goesOnRight: boolean;
};

/** The frame of a part whose pieces stand side by side: key switch, module, lamp with two filaments. */
export type Frame = {
  readonly part: string;
  readonly box: Box;
  readonly isKey: boolean;
  readonly link: readonly [Point, Point] | undefined;
};

/** A dashed line between the pieces of one part that stand near each other. */
export type Link = { readonly part: string; readonly points: readonly Point[] };

export type LabelRole = 'id' | 'value' | 'colour' | 'terminal' | 'pin' | 'ground' | 'rail' | 'frame';
export type Label = {
  readonly text: string;
  readonly role: LabelRole;
  /** What it names: a part, wire or terminal. */
  readonly of: string;
  /** Where the text begins, on its base line. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly weight: 500 | 700;
  readonly box: Box;
};

export type Track = { readonly number: number; readonly load: string; readonly x: number };

/** A whole drawing as plain numbers. */
export type Layout = {
  readonly width: number;
  readonly height: number;
  /** Distance of two tracks. */
  readonly pitch: number;
  readonly poles: readonly PlacedPole[];
  readonly wires: readonly PlacedWire[];
  readonly pins: readonly PlacedPin[];
  readonly dots: readonly Point[];
  readonly crossings: readonly Crossing[];
  readonly bars: readonly GroundBar[];
  readonly frames: readonly Frame[];
  readonly links: readonly Link[];
  readonly labels: readonly Label[];
  /** Labels that found no free place; they belong in a tooltip. */
  readonly dropped: readonly { readonly of: string; readonly text: string }[];
  readonly tracks: readonly Track[];
};
