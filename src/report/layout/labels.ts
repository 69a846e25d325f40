import type { Circuit } from '../../circuit/circuit.ts';
import { textWidth } from '../textWidth.ts';
import { frameLabels } from './frameLabels.ts';
import { boxAt, clear, inside, type Line, lineHeight, type Spot, terminalsOf } from './labelSpot.ts';
import type { Label, Layout } from './layout.ts';
import type { Nets } from './nets.ts';
import { Taken } from './taken.ts';
import { alongWire, wireColours } from './wireColours.ts';

type Bare = Omit<Layout, 'labels' | 'dropped'>;

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
    const short = part ? part.id : (name.split(' ').at(-1) ?? name);
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
  for (const frame of bare.frames) frameLabels(circuit, bare, frame.part, frame.box, place, placeOr);
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
  for (const [text, of, wire] of wireColours(circuit, bare)) {
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

function railLabels(bare: Bare, place: (lines: readonly Line[], spots: readonly Spot[]) => boolean): void {
  const rail = bare.wires.flatMap((w) => w.points).reduce((least, [, y]) => Math.min(least, y), Number.POSITIVE_INFINITY);
  const bar = bare.bars.length > 0 ? Math.min(...bare.bars.map((b) => b.y)) : undefined;
  if (Number.isFinite(rail))
    place([{ text: '30 feed', role: 'rail', of: '30', size: 14, weight: 500 }], [{ x: 18, y: rail, side: 'right' }]);
  if (bar !== undefined)
    place(
      [{ text: bare.bars.some((b) => b.sign) ? '31 ground' : '31 return', role: 'rail', of: '31', size: 14, weight: 500 }],
      [
        { x: 18, y: bar, side: 'right' },
        { x: 4, y: bar, side: 'right' },
      ],
    );
}
