import type { Layout, PlacedPole, PlacedWire } from './layout/layout.ts';
import { symbolOf } from './symbols/index.ts';
import type { Shape, Stand } from './symbols/shape.ts';

export type Shown = { readonly title: string; readonly about: readonly string[]; readonly closed: ReadonlySet<string> };

export function drawingSvg(layout: Layout, shown: Shown): string {
  const out: string[] = [];
  const { width, height } = layout;
  out.push(`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="'Barlow Semi Condensed','Arial Narrow',Arial,sans-serif">`);
  out.push(`<rect width="${width}" height="${height}" fill="#FBFBF9"/>`);
  for (const f of layout.frames) {
    out.push(`<rect x="${f.box.x}" y="${f.box.y}" width="${f.box.width}" height="${f.box.height}" fill="#E3E7E7" stroke="#15202B" stroke-width="1.6"/>`);
    if (f.link) out.push(`<path d="M${f.link[0].join(' ')}L${f.link[1].join(' ')}" stroke="#15202B" stroke-width="1.5" stroke-dasharray="7 4"/>`);
  }
  for (const l of layout.links) out.push(`<path d="${path(l.points)}" stroke="#15202B" stroke-width="1.5" stroke-dasharray="7 4" fill="none"/>`);
  const over = new Map<number, { x: number; y: number }[]>();
  for (const c of layout.crossings) over.set(c.over, [...(over.get(c.over) ?? []), c]);
  for (const [k, w] of layout.wires.entries()) if (!over.has(k)) out.push(wire(w));
  for (const b of layout.bars) out.push(`<path d="M${b.x1} ${b.y}H${b.x2}" stroke="#15202B" stroke-width="4"/>` + (b.sign ? `<path transform="translate(${b.sign[0]} ${b.sign[1]})" d="M0 -12V0M-13 0H13M-8.5 6H8.5M-4 12H4" stroke="#15202B" stroke-width="2"/>` : ''));
  for (const [k, at] of over) {
    for (const { x, y } of at) out.push(`<rect x="${x - 4.5}" y="${y - 6}" width="9" height="12" fill="#FBFBF9"/>`);
    out.push(wire(layout.wires[k]!));
  }
  for (const [x, y] of layout.dots) out.push(`<circle cx="${x}" cy="${y}" r="4.2" fill="#15202B"/>`);
  for (const p of layout.pins) out.push(`<g transform="translate(${p.x} ${p.y})${p.flat ? 'rotate(-90)' : ''}">${symbolOf('pin').shapes.map(shape).join('')}</g>`);
  for (const p of layout.poles) out.push(pole(p, shown.closed.has(p.element) ? 'closed' : 'open'));
  for (const l of layout.labels) {
    const ink = ['id', 'terminal'].includes(l.role) ? '#15202B' : '#46535E';
    out.push(`<text x="${l.x}" y="${l.y}" font-size="${l.size}" font-weight="${l.weight}" fill="${ink}" stroke="#FBFBF9" stroke-width="4" paint-order="stroke">${text(l.text)}</text>`);
  }
  for (const t of layout.tracks) out.push(`<text x="${t.x}" y="${height - 4}" font-size="13" text-anchor="middle" fill="#46535E">${t.number}</text>`);
  out.push('</svg>');
  return out.join('\n');
}

function wire(w: PlacedWire): string {
  return `<path d="${path(w.points)}" stroke="#15202B" stroke-width="2" fill="none"/>`;
}
const path = (points: readonly (readonly [number, number])[]) => points.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${x} ${y}`).join('');

function pole(p: PlacedPole, stand: Stand): string {
  const shapes = symbolOf(p.symbol).shapes.filter((s) => !('when' in s) || s.when === undefined || s.when === stand);
  return `<g transform="translate(${p.x} ${p.y})${p.turned ? ' scale(1 -1)' : ''}">${shapes.map(shape).join('')}</g>`;
}

const ink = { none: 'none', ink: '#15202B', sheet: '#FBFBF9' };
function shape(s: Shape): string {
  if (s.draw === 'path') return `<path d="${s.d}" fill="${ink[s.fill]}" stroke="#15202B" stroke-width="${s.line}" stroke-linecap="${s.line === 3 ? 'round' : 'butt'}" ${s.dash ? `stroke-dasharray="${s.dash}"` : ''}/>`;
  if (s.draw === 'circle') return `<circle cx="${s.x}" cy="${s.y}" r="${s.r}" fill="${ink[s.fill]}" stroke="#15202B" stroke-width="${s.line}"/>`;
  return `<text x="${s.x}" y="${s.y}" font-size="${s.size}" font-weight="${s.weight}" text-anchor="middle" fill="#15202B">${text(s.text)}</text>`;
}

function text(s: string): string {
  return s.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}
