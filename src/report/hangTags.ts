import type { Box, Layout, PlacedPole, Point } from './layout/layout.ts';
import { textWidth } from './textWidth.ts';

/** What hangs on a part: the fault in words. */
export type Tagged = {
  readonly subject: string;
  readonly words: string;
  readonly part: string;
  readonly text: string;
  readonly phrase: string;
};

export type HangTag = {
  readonly number: number;
  /** Middle of the part or contact that it hangs on. */
  readonly at: Point;
  readonly box: Box;
  readonly eyelet: Point;
  /** The clipped end with the eyelet points right. */
  readonly eyeletRight: boolean;
  readonly string: string;
  readonly lines: readonly { readonly text: string; readonly role: 'tagsubject' | 'tagfault' | 'tagextent' }[];
  /** Only a numbered tab: the words stand beside the drawing. */
  readonly tab: boolean;
};

const width = 176;
/** With three lines of words, and with four or five. */
const height = (lines: number): number => (lines > 4 ? 114 : 96);
/** More tags than this shrink to tabs. */
const mostTags = 3;
const ring = 24;

/**
 * Places a tag for each fault in the free space nearest its part. Every place on a coarse grid around the part is
 * priced by what it would cover, and by its distance; the cheapest wins, ties going to the first. Tags avoid each other.
 *
 * Cost: grid places times boxes, a few ten thousand comparisons for a tag.
 */
export function hangTags(layout: Layout, faults: readonly Tagged[]): readonly HangTag[] {
  const placed: HangTag[] = [];
  const known = faults.flatMap((fault, k) => {
    const at = placeOf(layout, fault);
    return at ? [{ fault, at, number: k + 1 }] : [];
  });
  const solid = obstacles(layout);
  for (const { fault, at, number } of known) {
    if (faults.length > mostTags) {
      placed.push({
        number,
        at,
        box: { x: at[0] + 14, y: at[1] - 36, width: 32, height: 24 },
        eyelet: at,
        eyeletRight: false,
        string: '',
        lines: [],
        tab: true,
      });
      continue;
    }
    const taken = [
      ...solid,
      ...placed.map((p) => ({ box: p.box, price: 50 })),
      ...known.map((o) => ({ box: around(o.at, ring), price: 12 })),
    ];
    const lines = linesOf(fault);
    placed.push(hung(lines, at, number, bestPlace(layout, at, taken, height(lines.length))));
  }
  return placed;
}

function hung(lines: HangTag['lines'], at: Point, number: number, box: Box): HangTag {
  const eyeletRight = box.x + box.width / 2 < at[0];
  const eyelet: Point = [eyeletRight ? box.x + box.width - 12 : box.x + 12, box.y + 18];
  const from = towards(at, eyelet, ring);
  const bend = Math.min(40, Math.abs(from[0] - eyelet[0]) / 2 + 8);
  const d = `M${f(from[0])} ${f(from[1])}C${f(from[0])} ${f(from[1] - bend)} ${f(eyelet[0] + (eyeletRight ? bend : -bend))} ${f(eyelet[1] - bend / 2)} ${f(eyelet[0])} ${f(eyelet[1])}`;
  return { number, at, box, eyelet, eyeletRight, string: d, lines, tab: false };
}

function linesOf(fault: Tagged): HangTag['lines'] {
  const contact = /^(.+)\.(\w+)-(\w+)$/.exec(fault.subject);
  const subject = contact ? `${contact[1]} contact ${contact[2]}–${contact[3]}` : fault.subject;
  const room = width - 40;
  const figure = fault.phrase.startsWith(`${fault.subject} ${fault.words}`.trim())
    ? fault.phrase.slice(`${fault.subject} ${fault.words}`.trim().length).trim()
    : '';
  return [
    { text: fit(subject, room, 17), role: 'tagsubject' as const },
    { text: fit([fault.words, figure].filter((w) => w !== '').join(' '), room, 15), role: 'tagfault' as const },
    ...extent(fault.text, room).map((text) => ({ text, role: 'tagextent' as const })),
  ];
}

/** How far it goes, in three lines; of a longer sentence what stands before the semicolon. */
function extent(text: string, room: number): readonly string[] {
  const whole = wrapped(text, room, 14, 3);
  const [first] = text.split(';');
  return whole.at(-1)?.endsWith('…') && first ? wrapped(first, room, 14, 3) : whole;
}

/** The contact or piece that a fault names; else the part's first piece, or a stretch of the wire. */
export function placeOf(layout: Layout, fault: Pick<Tagged, 'subject' | 'part'>): Point | undefined {
  const exact = layout.poles.find((p) => p.id === fault.subject || p.element === fault.subject);
  const pole: PlacedPole | undefined = exact ?? layout.poles.find((p) => p.part === fault.part);
  if (pole) return [pole.x, pole.y];
  const wire = layout.wires.filter((w) => w.wires.includes(fault.part)).sort((a, b) => lengthOf(b.points) - lengthOf(a.points))[0];
  if (wire) return middle(wire.points);
  const bar = layout.bars.find((b) => b.part === fault.part);
  if (bar) return bar.sign ?? [(bar.x1 + bar.x2) / 2, bar.y];
  const pin = layout.pins.find((p) => p.part === fault.part || p.id === fault.part);
  return pin && [pin.x, pin.y];
}

type Obstacle = { readonly box: Box; readonly price: number };

/** What a tag would cover: pieces dearest, then words, then wires. */
function obstacles(layout: Layout): readonly Obstacle[] {
  const lines = layout.wires.flatMap((w) =>
    w.points.slice(1).map((p, k): Obstacle => {
      const q = w.points[k]!;
      const box = {
        x: Math.min(p[0], q[0]) - 4,
        y: Math.min(p[1], q[1]) - 4,
        width: Math.abs(p[0] - q[0]) + 8,
        height: Math.abs(p[1] - q[1]) + 8,
      };
      return { box, price: 1.5 };
    }),
  );
  return [...layout.poles.map((p) => ({ box: p.box, price: 8 })), ...layout.labels.map((l) => ({ box: l.box, price: 4 })), ...lines];
}

function bestPlace(layout: Layout, [x, y]: Point, taken: readonly Obstacle[], tall: number): Box {
  let best: { box: Box; price: number } | undefined;
  for (let dx = -360; dx <= 360; dx += 12)
    for (let dy = -260; dy <= 260; dy += 12) {
      const box = { x: x + dx - (dx < 0 ? width : 0), y: y + dy - tall / 2, width, height: tall };
      if (box.x < 4 || box.y < 4 || box.x + box.width > layout.width - 4 || box.y + box.height > layout.height - 4) continue;
      if (overlap(box, around([x, y], ring + 4)) > 0) continue;
      const way = Math.hypot(Math.max(0, box.x - x, x - box.x - box.width), Math.max(0, box.y - y, y - box.y - box.height));
      let price = way * 3;
      for (const o of taken) {
        const area = overlap(box, o.box);
        if (area > 0) price += o.price * (20 + area / 8);
        if (best && price >= best.price) break;
      }
      if (!best || price < best.price) best = { box, price };
    }
  return best?.box ?? { x: Math.max(4, Math.min(x + 40, layout.width - width - 4)), y: Math.max(4, y - 140), width, height: tall };
}

function overlap(a: Box, b: Box): number {
  const w = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}

const around = ([x, y]: Point, r: number): Box => ({ x: x - r, y: y - r, width: 2 * r, height: 2 * r });
const f = (v: number) => String(Math.round(v * 10) / 10);

function towards(from: Point, to: Point, r: number): Point {
  const far = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  return [from[0] + ((to[0] - from[0]) / far) * r, from[1] + ((to[1] - from[1]) / far) * r];
}

const lengthOf = (points: readonly Point[]) =>
  points.slice(1).reduce((sum, p, k) => sum + Math.abs(p[0] - points[k]![0]) + Math.abs(p[1] - points[k]![1]), 0);
function middle(points: readonly Point[]): Point {
  let longest: { at: Point; length: number } | undefined;
  for (const [k, p] of points.slice(1).entries()) {
    const q = points[k]!;
    const length = Math.abs(p[0] - q[0]) + Math.abs(p[1] - q[1]);
    if (!longest || length > longest.length) longest = { at: [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2], length };
  }
  return longest?.at ?? points[0]!;
}

function fit(text: string, room: number, px: number): string {
  if (textWidth(text, px, 700) <= room) return text;
  let cut = text;
  while (cut.length > 1 && textWidth(`${cut}…`, px, 700) > room) cut = cut.slice(0, -1);
  return `${cut.trimEnd()}…`;
}

function wrapped(text: string, room: number, px: number, most: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, px, 500) <= room || line === '') line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  if (line !== '') lines.push(line);
  return lines.length <= most ? lines : [...lines.slice(0, most - 1), fit(lines.slice(most - 1).join(' '), room, px)];
}
