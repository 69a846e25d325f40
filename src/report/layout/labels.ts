import type { Circuit } from '../../circuit/circuit.ts';
import { textWidth } from '../textWidth.ts';
import type { Box, Label, LabelRole, Layout, PlacedWire, Point } from './layout.ts';
import type { Nets } from './nets.ts';
import { Taken } from './taken.ts';

type Bare = Omit<Layout, 'labels' | 'dropped'>;
type Line = { readonly text: string; readonly role: LabelRole; readonly of: string; readonly size: number; readonly weight: 500 | 700 };

/**
 * Names everything: ids and values right of their symbols, ground names beside their signs, terminals at frames,
 * colours on wires. A label takes the first of its places that is free of symbols, wires and labels before it; what
 * finds none is handed back for the tooltip, never laid over something.
 */
export function labelled(circuit: Circuit, nets: Nets, bare: Bare): Pick<Layout, 'labels' | 'dropped'> {
  const taken = new Taken(bare);
  const all = [...nets.pieces, ...nets.hanging];
  const labels: Label[] = [];
  const dropped: { of: string; text: string }[] = [];
  const place = (lines: readonly Line[], spots: readonly Spot[]): boolean => {
    const real = lines.filter((l) => l.text !== '');
    if (real.length === 0) return true;
    const width = Math.max(...real.map((l) => textWidth(l.text, l.size, l.weight)));
    const height = real.reduce((sum, l) => sum + lineHeight(l), 0);
    for (const spot of spots) {
      const box = boxAt(spot, width, height);
      if (box.x < 2 || box.y < 2 || box.x + box.width > bare.width - 2 || box.y + box.height > bare.height - 1 || !taken.isFree(box))
        continue;
      let y = box.y;
      for (const l of real) {
        const own = textWidth(l.text, l.size, l.weight);
        const x = spot.side === 'left' ? box.x + width - own : box.x;
        const lineBox = { x, y, width: own, height: lineHeight(l) };
        labels.push({ ...l, x, y: y + l.size * 0.86, box: lineBox });
        taken.add(lineBox);
        y += lineHeight(l);
      }
      return true;
    }
    return false;
  };
  const placeOr = (lines: readonly Line[], spots: readonly Spot[]) => {
    if (place(lines, spots)) return;
    if (lines.length > 1 && place(lines.slice(0, 1), spots)) dropped.push(...lines.slice(1).map(({ of, text }) => ({ of, text })));
    else dropped.push(...lines.map(({ of, text }) => ({ of, text })));
  };

  for (const bar of bare.bars) {
    const part = bar.part === undefined ? undefined : circuit.parts.get(bar.part);
    const name = part
      ? [part.id, part.name ?? part.place].filter(Boolean).join(' ')
      : (nets.nets.find((n) => n.bar?.id === bar.id)?.bar?.text ?? bar.id);
    const short = part ? part.id : name;
    const [x, y] = bar.sign ?? [bar.x1, bar.y + 6];
    const spots: Spot[] = [
      { x: x + 20, y: y + 4, side: 'right' },
      { x: x - 20, y: y + 4, side: 'left' },
      { x: x + 15, y: y - 1, side: 'right' },
    ];
    const line = (text: string): Line => ({ text, role: 'ground', of: bar.id, size: 14, weight: 500 });
    const below: Spot = { x: x - textWidth(short, 14, 500) / 2, y: y + 22, side: 'right' };
    if (!place([line(name)], spots)) placeOr([line(short)], [...spots, below]);
  }
  for (const frame of bare.frames) frameLabels(circuit, nets, bare, frame.part, frame.box, place, placeOr);
  for (const [k, pole] of bare.poles.entries()) {
    const piece = all[k]!;
    const isFramed = bare.frames.some((f) => f.part === pole.part && inside(f.box, [pole.x, pole.y]));
    const value = piece.pole.label ?? '';
    const pieces = all.filter((p) => p.part === piece.part).length;
    const second = value !== '' ? value : pieces > 1 && !isFramed ? terminalsOf(pole.top, pole.bottom) : '';
    const lines: Line[] = [
      { text: isFramed ? '' : pole.part, role: 'id', of: pole.part, size: 15, weight: 700 },
      { text: isFramed ? '' : second, role: 'value', of: pole.part, size: 14, weight: 500 },
    ];
    const [right, left] = [pole.box.x + pole.box.width + 5, pole.box.x - 5];
    const isSupply = piece.symbol.role === 'supply' && left < 84 + bare.pitch;
    const beside = (height: number): readonly Spot[] => {
      const [above, below] = [pole.box.y - height / 2 - 2, pole.box.y + pole.box.height + height / 2 + 2];
      const own: Spot[] = [
        { x: right, y: pole.y, side: 'right' },
        { x: left, y: pole.y, side: 'left' },
        { x: right, y: pole.y - 12, side: 'right' },
        { x: right, y: pole.y + 12, side: 'right' },
        { x: pole.x + clear, y: above, side: 'right' },
        { x: pole.x + clear, y: below, side: 'right' },
        { x: pole.x - clear, y: above, side: 'left' },
        { x: pole.x - clear, y: below, side: 'left' },
      ];
      return isSupply ? [own[1]!, ...own] : own;
    };
    const whole = lines.reduce((sum, l) => sum + (l.text === '' ? 0 : lineHeight(l)), 0);
    if (place(lines, beside(whole))) continue;
    const [id, more] = lines as [Line, Line];
    if (!place([id], beside(lineHeight(id)))) dropped.push({ of: id.of, text: id.text });
    if (more.text !== '') dropped.push({ of: more.of, text: more.text });
  }
  railLabels(bare, place);
  for (const [text, of, wire] of colours(circuit, bare)) {
    const line: Line = { text, role: 'colour', of, size: 13, weight: 500 };
    if (!place([line], alongWire(wire))) dropped.push({ of, text });
  }
  for (const pin of bare.pins) {
    const text = pin.id;
    const line: Line = { text, role: 'pin', of: pin.id, size: 13, weight: 500 };
    const spots: Spot[] = pin.flat
      ? [{ x: pin.x - 8, y: pin.y - 14, side: 'right' }]
      : [
          { x: pin.x + 9, y: pin.y, side: 'right' },
          { x: pin.x - 9, y: pin.y, side: 'left' },
        ];
    if (!place([line], spots)) dropped.push({ of: pin.id, text });
  }
  return { labels, dropped };
}

/** Where a label would stand: its side nearest to the thing at x, its middle at y. */
type Spot = { readonly x: number; readonly y: number; readonly side: 'right' | 'left' };
/** From the middle of a wire to a label beside it: half the widest ribbon and some air. */
const clear = 8;
const lineHeight = (l: Line) => l.size + 2;
const inside = (b: Box, [x, y]: Point) => x >= b.x && x <= b.x + b.width && y >= b.y && y <= b.y + b.height;

function boxAt({ x, y, side }: Spot, width: number, height: number): Box {
  return { x: side === 'right' ? x : x - width, y: y - height / 2, width, height };
}

const local = (terminal: string) => terminal.slice(terminal.lastIndexOf('.') + 1);
function terminalsOf(top: string, bottom: string): string {
  const names = [local(top), local(bottom)].filter((t) => !t.startsWith('~'));
  return names.join('–');
}

/** Name of the part in the frame, terminals at its edges. */
function frameLabels(
  circuit: Circuit,
  nets: Nets,
  bare: Bare,
  part: string,
  box: Box,
  place: (lines: readonly Line[], spots: readonly Spot[]) => boolean,
  placeOr: (lines: readonly Line[], spots: readonly Spot[]) => void,
): void {
  const own = bare.wires.filter((w) => w.inside === part && w.points.some(([x, y]) => inside(box, [x, y])));
  for (const w of own) {
    const [x, y] = w.points[0]!;
    const isTop = y === box.y;
    if (!isTop && y !== box.y + box.height) continue;
    const line: Line = { text: local(w.from), role: 'terminal', of: w.from, size: 14, weight: 700 };
    placeOr(
      [line],
      isTop
        ? [
            { x: x + clear, y: y - 9, side: 'right' },
            { x: x - clear, y: y - 9, side: 'left' },
            { x: x + clear, y: y + 9, side: 'right' },
          ]
        : [
            { x: x + clear, y: y - 10, side: 'right' },
            { x: x - clear, y: y - 10, side: 'left' },
          ],
    );
  }
  const name = circuit.parts.get(part);
  const title: Line = { text: part, role: 'id', of: part, size: 15, weight: 700 };
  const value: Line = { text: name?.name ?? name?.kind.title ?? '', role: 'frame', of: part, size: 14, weight: 500 };
  const middle = box.y + box.height / 2;
  const stands = bare.poles.filter((p) => p.part === part && inside(box, [p.x, p.y])).sort((a, b) => b.x - a.x);
  const spots: Spot[] = [
    ...stands.flatMap((p): Spot[] => [{ x: p.box.x + p.box.width + 6, y: p.y, side: 'right' }]),
    { x: box.x + box.width + 6, y: middle, side: 'right' },
    { x: box.x - 6, y: middle, side: 'left' },
    { x: box.x + box.width + 6, y: box.y + 16, side: 'right' },
    { x: box.x + box.width + 6, y: box.y + box.height - 16, side: 'right' },
    { x: box.x, y: box.y - 12, side: 'right' },
  ];
  if (!place([title, value], spots)) placeOr([title], spots);
  void nets;
}

function railLabels(bare: Bare, place: (lines: readonly Line[], spots: readonly Spot[]) => boolean): void {
  const rail = bare.wires.flatMap((w) => w.points).reduce((least, [, y]) => Math.min(least, y), Number.POSITIVE_INFINITY);
  const bar = bare.bars.length > 0 ? Math.min(...bare.bars.map((b) => b.y)) : undefined;
  if (Number.isFinite(rail))
    place([{ text: '30 feed', role: 'rail', of: '30', size: 14, weight: 500 }], [{ x: 18, y: rail, side: 'right' }]);
  if (bar !== undefined)
    place(
      [{ text: '31 ground', role: 'rail', of: '31', size: 14, weight: 500 }],
      [
        { x: 18, y: bar, side: 'right' },
        { x: 4, y: bar, side: 'right' },
      ],
    );
}

/** One wire colour for each wire, on its longest straight run of 40 px or more. */
function colours(circuit: Circuit, bare: Bare): readonly (readonly [string, string, PlacedWire])[] {
  const seen = new Set<string>();
  const list: [string, string, PlacedWire][] = [];
  for (const wire of [...bare.wires].sort((a, b) => longest(b) - longest(a))) {
    if (wire.wires.length !== 1) continue;
    const id = wire.wires[0]!;
    const base = id.replace(/[a-z]$/, '');
    const part = circuit.parts.get(id);
    const text = part?.kind.poles(part)[0]?.label;
    if (text === undefined || seen.has(base) || longest(wire) < 40) continue;
    seen.add(base);
    list.push([text, id, wire]);
  }
  return list;
}

function runs(wire: PlacedWire): readonly { a: Point; b: Point; length: number }[] {
  return wire.points
    .slice(1)
    .map((b, k) => ({ a: wire.points[k]!, b, length: Math.abs(b[0] - wire.points[k]![0]) + Math.abs(b[1] - wire.points[k]![1]) }));
}
const longest = (wire: PlacedWire) => Math.max(...runs(wire).map((r) => r.length));

function alongWire(wire: PlacedWire): readonly Spot[] {
  const spots: Spot[] = [];
  for (const { a, b, length } of [...runs(wire)].sort((m, n) => n.length - m.length)) {
    if (length < 40) break;
    for (const share of [0.5, 0.3, 0.7]) {
      const [x, y] = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
      if (a[0] === b[0]) spots.push({ x: x + 8, y, side: 'right' }, { x: x - 8, y, side: 'left' });
      else spots.push({ x: x - 14, y: y - 13.5, side: 'right' }, { x: x - 14, y: y + 13.5, side: 'right' });
    }
  }
  return spots;
}
