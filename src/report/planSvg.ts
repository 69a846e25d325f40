import { costText, leftText, type PlanStep, type PlanView } from './planView.ts';
import { wrapped } from './textTable.ts';

/** Sizes in px: column of one step, line of text, gap between boxes. */
const size = { column: 250, box: 210, line: 15, pad: 8, gap: 12, head: 46 } as const;
/** Characters of a line in a box. */
const characters = 34;

type Box = { readonly lines: readonly string[]; readonly isEnd: boolean; readonly x: number; readonly y: number; readonly height: number };
type Line = { readonly from: Box; readonly to: Box; readonly text: string };

/** A plan as a tree that grows to the right: what is read in boxes, what is seen on the lines, what is left at the ends. */
export function planSvg(view: PlanView, title: string): string {
  const boxes: Box[] = [];
  const lines: Line[] = [];
  let bottom: number = size.head;
  const place = (step: PlanStep, depth: number): Box => {
    const text = step.is === 'end' ? leftText(step) : `${step.scene}: ${step.reading} (${Math.max(1, Math.round(step.minutes))} min)`;
    const rows = wrapped(text, characters);
    const height = rows.length * size.line + 2 * size.pad;
    const x = 20 + depth * (size.column + 70);
    if (step.is === 'end') {
      const box = { lines: rows, isEnd: true, x, y: bottom, height };
      bottom += height + size.gap;
      boxes.push(box);
      return box;
    }
    const first = bottom;
    const kids = step.branches.map((b) => ({ to: place(b.next, depth + 1), text: `${b.seen} ${b.percent}` }));
    bottom = Math.max(bottom, first + height + size.gap);
    const middle = kids.length === 0 ? first : (kids[0]!.to.y + kids.at(-1)!.to.y + kids.at(-1)!.to.height) / 2 - height / 2;
    const box = { lines: rows, isEnd: false, x, y: Math.max(first, middle), height };
    boxes.push(box);
    for (const k of kids) lines.push({ from: box, to: k.to, text: k.text });
    return box;
  };
  place(view.root, 0);
  const width = Math.max(...boxes.map((b) => b.x + size.box)) + 20;
  const height = bottom + 30;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="system-ui, sans-serif" font-size="12">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    `<text x="20" y="26" font-size="15" font-weight="600">${escaped(title)}</text>`,
    ...lines.map(lineSvg),
    ...boxes.map(boxSvg),
    `<text x="20" y="${height - 12}" fill="#444">${escaped(costText(view))}</text>`,
    '</svg>',
    '',
  ].join('\n');
}

function boxSvg({ lines, isEnd, x, y, height }: Box): string {
  const rows = lines.map(
    (line, k) => `<tspan x="${x + size.pad}" y="${Math.round(y + size.pad + (k + 0.8) * size.line)}">${escaped(line)}</tspan>`,
  );
  const shape = `<rect x="${x}" y="${Math.round(y)}" width="${size.box}" height="${height}" rx="${isEnd ? 10 : 2}" fill="${isEnd ? '#f2f2ee' : '#fff'}" stroke="#333"/>`;
  return `${shape}<text>${rows.join('')}</text>`;
}

function lineSvg({ from, to, text }: Line): string {
  const [x1, y1] = [from.x + size.box, Math.round(from.y + from.height / 2)];
  const [x2, y2] = [to.x, Math.round(to.y + to.height / 2)];
  const bend = x1 + 18;
  return `<path d="M${x1} ${y1}H${bend}V${y2}H${x2}" fill="none" stroke="#333"/><text x="${bend + 4}" y="${y2 - 4}" font-size="11">${escaped(text)}</text>`;
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
